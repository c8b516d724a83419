// Questions before new readings are trusted: wrong choices of sheets.
#pragma once

#include <optional>

#include "versolay/printer_profile.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// sheets_known: sheets that the profile was made from, which agree with it whatever the printer
/// does. nullopt: none.
std::optional<Notice> known_sheets(const PrinterProfile& profile, const Readings& readings);

/// Two or more test sheets that land much closer than this printer would print them uncorrected:
/// most likely printed from a corrected PDF. Taken at face value, they would undo the correction.
bool looks_corrected(const PrinterProfile& profile, const Readings& readings);

}  // namespace versolay
