// The actual size of a printed page.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "measure/side_reading.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// Size of the print of one side, 1 = 100 %, along the axes of its page. Two yardsticks: the
/// resolution that the files name, and the nominal size of the paper, where all of its edges are
/// seen (paper is cut to some tenths of a millimetre, see ISO 216, 4.2 for what is allowed). Where
/// they differ by more than 1 %, the one that finds the smaller fault is believed: resolutions are
/// often wrong, and so is the name of a paper. Without any yardstick the result is empty.
PrintedScale printed_scale_of(const std::vector<SideReading>& scans,
                              const std::optional<PrintLay>& lay);

/// Adds a notice beyond 0.5 %, or when nothing is known of it; refuses beyond 2 %.
std::optional<Refusal> check_printed_scale(const SheetReading& sheet, Notices& warnings);

}  // namespace versolay
