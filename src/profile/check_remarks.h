// What to ask before new readings are believed: mistakes of whoever chose them.
#pragma once

#include <optional>

#include "versolay/profile.h"
#include "versolay/readings.h"
#include "versolay/result.h"

namespace versolay {

/// sheets_known: sheets that the profile was made from, which agree with it whatever the printer
/// does. nullopt: none.
std::optional<Notice> known_sheets(const PrinterProfile& profile, const Readings& readings);

/// Two or more test sheets that land much nearer to their place than this printer would bring them
/// by itself: printed from a corrected PDF, most likely. Taken as they are, they would take the
/// correction back.
bool looks_corrected(const PrinterProfile& profile, const Readings& readings);

}  // namespace versolay
