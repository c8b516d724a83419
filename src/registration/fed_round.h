// Sheets that were printed with the page turned half round in the printer, on both sides.
#pragma once

#include <optional>
#include <vector>

#include "versolay/readings.h"
#include "versolay/studies.h"

namespace versolay {

/// The sheet in the frame of the printer: both pages turned half round, so that what the printer
/// did to it is told as for a sheet that was printed upright. Sets fed_round. Turning twice gives
/// the sheet back.
SheetReading turned_round(SheetReading sheet);

/// What the two groups disagree on, halved: the printer's part has the same sense in both, that of
/// the measurement (the lean of a pin, burrs, the scanner) changes its sign with the turning.
/// Welch's t for each direction; `p_value` by Bonferroni.
/// nullopt: fewer than two sheets in one of the groups.
std::optional<FedRoundCheck> fed_round_of(const std::vector<SheetReading>& sheets);

}  // namespace versolay
