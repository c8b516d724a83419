// Robust fit of a round rim, or of several concentric ones, to points of its edge.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

namespace versolay {

/// One point of an edge, in polar coordinates about a first guess of the centre.
struct RimPoint {
  double angle_rad = 0.0;
  double radius_mm = 0.0;
  int rim = 0;  // which of the concentric rims, from 0
};

struct RimFit {
  Eigen::Vector2d centre_mm{0.0, 0.0};  // from the first guess
  Eigen::Matrix2d covariance_mm2 = Eigen::Matrix2d::Zero();
  std::vector<double> radii_mm;                     // mean radius of each rim
  std::vector<Eigen::Vector2d> second_harmonic_mm;  // a_k, b_k of each rim, see fit_rims()
  double residual_rms_mm = 0.0;
  int used = 0;  // points that were kept
};

/// Model: r(angle) = R_k + cx cos + cy sin + a_k cos 2angle + b_k sin 2angle, one centre for all
/// rims. The second harmonic takes up ellipses (printers that stretch, holes that are torn a
/// little), so that gaps in the rim do not turn them into a shift of the centre. Iteratively
/// re-weighted least squares; points beyond 4 robust standard deviations count for nothing.
/// The covariance assumes that neighbouring points are independent; callers who know better
/// widen it.
/// @param rims  one or two.
/// @param least_sigma_mm  scatter that is never taken for outliers: rounding, sampling.
/// @return nullopt when fewer than 60 % of `expected` points remain, or they leave more than a
///         third of the circle uncovered.
std::optional<RimFit> fit_rims(const std::vector<RimPoint>& points, int rims, int expected,
                               double least_sigma_mm = 0.003);

}  // namespace versolay
