// Sub-pixel position of a printed ring.
//
// Accuracy: within 1 um of the true centre without noise from 300 dpi on, 2 um below
// (tests/unit/measure_ring_test.cpp); 1.46 times the Cramer-Rao bound under white noise at 300 dpi
// (tests/bench/README.md).
#pragma once

#include <optional>

#include "measure/sampler.h"
#include "target/target_geometry.h"
#include "versolay/frames.h"

namespace versolay {

struct RingSighting {
  Point<ScanPx> centre;
  double sd_mm = 0.0;  // one axis, of the centre, from the scatter of its edge points
  double residual_rms_mm = 0.0;
  Eigen::Vector2d second_harmonic_mm{0.0, 0.0};  // of its radius, cos and sin, mean of its rims
  Eigen::Vector2d tail{0.0, 0.0};  // light missing on one side outside it, of the contrast
};

/// Rough place of the ring whose centre is expected at `expected`, within `reach_mm` of it, from
/// the darkest places on rays: good to a few hundredths of a millimetre. nullopt: no such ring.
std::optional<Point<PageMm>> find_ring_roughly(const Sampler& image,
                                               const Affine<ScanPx, PageMm>& scan_from_page,
                                               const Point<PageMm>& expected, const RingSize& size,
                                               double reach_mm);

/// Finds the ring whose centre is expected at `expected`, within `reach_mm` of it, and refines its
/// centre from the points where its outer and inner edge cross the level midway between the paper
/// and the ink. The paper's level is a plane, so that uneven light does not shift the centre.
/// @param scan_from_page  good to a few per cent in scale; its offset to `reach_mm`.
/// @return nullopt when the ring is missing, too faint, cut off, or covered by more than dirt (see
///         fit_rims).
std::optional<RingSighting> find_ring(const Sampler& image,
                                      const Affine<ScanPx, PageMm>& scan_from_page,
                                      const Point<PageMm>& expected, const RingSize& size,
                                      double reach_mm);

}  // namespace versolay
