// From the readings of both sides of one sheet to its registration, with the self-checks.
#pragma once

#include <vector>

#include "measure/side_reading.h"
#include "versolay/readings.h"

namespace versolay {

/// All scans of one sheet: one or several of each side.
struct SheetScans {
  std::vector<SideReading> recto;
  std::vector<SideReading> verso;
};

/// Registration of the sheet from the holes that were read on both sides. Several scans of a side
/// are combined hole by hole. Precondition: all scans are of one sheet (same run and number).
/// @return a refusal with one of the codes other_side_missing, hole_contrast, no_holes,
///         too_few_holes, not_same_sheet, wrong_turn, holes_disagree, offset_too_large,
///         printed_scale.
Result<SheetReading> register_sheet(const SheetScans& scans);

}  // namespace versolay
