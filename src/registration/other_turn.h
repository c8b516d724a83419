// Predicts the effect of the other turn axis from the positions of both passes on the paper.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "versolay/sheet_readings.h"
#include "versolay/study_results.h"

namespace versolay {

/// Registration (dx mm, dy mm, rotation mrad) of a sheet whose prints lie like this, each in the
/// view of its own side: c_back - M c_front. Exact for small angles.
Eigen::Vector3d registration_from_lays(const PrintLay& recto, const PrintLay& verso, TurnAxis axis);

/// Mean and spread of the registration after the other turn: registration_from_lays() with the
/// other mirror. A printer lays a page with respect to the paper's guides and knows nothing of the
/// front, so that the lay of the second pass stays what it is; the paper's size enters through the
/// middle of the sheet. The rotation is that of the readings: a skew is the same for every turn.
/// Half widths: Student t over the sheets, and what the cut of the paper may shift all of them by.
/// nullopt: no sheet with four edges read on both sides.
/// Precondition: all sheets are of this turn and paper.
std::optional<OtherTurn> other_turn_of(const std::vector<SheetReading>& sheets, Turn turn,
                                       const Paper& paper);

}  // namespace versolay
