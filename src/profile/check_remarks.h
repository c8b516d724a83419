// What to ask before new readings are believed: mistakes of whoever chose them.
#pragma once

#include "versolay/profile.h"
#include "versolay/readings.h"
#include "versolay/result.h"

namespace versolay {

/// sheets_known: sheets that the profile was made from. looks_corrected: test sheets that land
/// where they should, by a printer that would not do that: printed from a corrected PDF, and not
/// said so.
/// @param corrected  said so.
Notices remarks_on_new_readings(const PrinterProfile& profile, const Readings& readings,
                                bool corrected);

}  // namespace versolay
