// Marks with a tail to one side: a sensor that retains part of each line, or print of the other
// side that shows through beside them.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace versolay {

/// How much darker it is outside the rings on one side than on the other, of their contrast: the
/// length of the median of their tails. Blur of a lens, ink that spreads and dust have no side.
/// Precondition: at least one ring.
double smear_of(const std::vector<Eigen::Vector2d>& tails);

/// Is this more than good scanners show? They show 0.002. Wide holes and thin lines are displaced
/// by different amounts: at 150 dpi 0.015 mm apart with 0.06 (a sensor that keeps 0.53 of each
/// line), 0.07 mm with 0.12 (0.7). A print that shows through moves the middle of a ring towards
/// the other side's: 0.04 mm with 0.048 (0.4 of its contrast). Source: tests/bench/damaged_scans,
/// sensor_lag and show_through.
inline bool is_smeared(double smear) { return smear > 0.03; }

}  // namespace versolay
