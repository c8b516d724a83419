// Sheets that were printed with the page rotated by 180 degrees in the printer, on both sides.
#pragma once

#include <optional>
#include <vector>

#include "versolay/sheet_readings.h"
#include "versolay/study_results.h"

namespace versolay {

/// The sheet in the frame of the printer: both pages rotated by 180 degrees, so that it is
/// described like a sheet that was printed upright. Sets fed_round. Applying it twice restores the
/// sheet.
SheetReading turned_round(SheetReading sheet);

/// What the two groups disagree on, halved: the printer's part has the same sense in both, that of
/// the measurement (the lean of a pin, burrs, the scanner) changes its sign with the turning.
/// Welch's t for each direction; `p_value` by Bonferroni.
/// nullopt: fewer than two sheets in one of the groups.
std::optional<FedRoundCheck> fed_round_of(const std::vector<SheetReading>& sheets);

}  // namespace versolay
