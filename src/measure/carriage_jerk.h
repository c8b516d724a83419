// How unevenly the carriage of a scanner runs within the diameter of a ring.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "measure/scanner_map.h"

namespace versolay {

/// A ring and how it is stretched: cos and sin of the second harmonic of its radius, mm, in the
/// axes of the page.
struct RingStretch {
  Point<ScanPx> centre;
  Eigen::Vector2d second_harmonic_mm{0.0, 0.0};
};

/// Standard deviation, mm, of what the carriage does too fast for the map to follow, such as a gear
/// with a period of some millimetres; 0 where it does not show.
///
/// A carriage that runs unevenly stretches rings along itself: the cosine of their second harmonic
/// varies from ring to ring. Its sine varies by the ragged print alone and is subtracted. So is the
/// map's prediction. A wobble of amplitude A and period p changes the cosine of a ring of radius R
/// by A (J3 - J1)(2 pi R / p) at most: 0.3 to 0.7 A for most periods from 2 to 9 mm. At p = 2.1 R
/// (4.9 mm for the rings of a target) it is zero: such a wobble is not detected.
///
/// Precondition: the page lies upright or on its side, to a few degrees.
double carriage_jerk_sd_mm(const std::vector<RingStretch>& rings, double radius_mm,
                           const ScannerMap& map);

/// Is this more than what ordinary carriages do? Then it is worth a warning.
inline bool is_a_gear(double jerk_sd_mm) { return jerk_sd_mm > 0.030; }

}  // namespace versolay
