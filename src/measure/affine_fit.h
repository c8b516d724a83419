// Maps from pairs of places: least squares, robust where the pairs may be wrong.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "versolay/frames.h"

namespace versolay {

struct PagePair {
  Point<ScanPx> scan;
  Point<PageMm> page;
};

/// Similarity (4 parameters, no mirror) scan_from_page. For coarse work from few places.
/// Precondition: two different places at least. Source: Umeyama, IEEE TPAMI 13(4), 1991.
Affine<ScanPx, PageMm> fit_similarity(const std::vector<PagePair>& pairs);

/// Local or global affine map page_from_scan with what is needed to say how good it is.
struct PageFit {
  Affine<PageMm, ScanPx> page_from_scan;
  double residual_rms_mm = 0.0;  // one axis, of the pairs that were kept
  int used = 0;
  std::vector<bool> kept;                              // for each pair
  Eigen::Matrix3d cofactor = Eigen::Matrix3d::Zero();  // (H' H)^-1 of rows (1, x_px, y_px)
  Eigen::Vector2d centroid_px{0.0, 0.0};               // origin of those rows

  /// Variance factor of the map at a place: multiply by the variance of one coordinate.
  double leverage(const Point<ScanPx>& p) const;
};

/// Affine fit that drops, one by one, pairs that are off by more than
/// max(least_limit_mm, 4 robust standard deviations), while at least `least_pairs` remain.
/// @return nullopt when fewer than max(3, least_pairs) pairs remain or they lie on a line.
std::optional<PageFit> fit_page(const std::vector<PagePair>& pairs, double least_limit_mm,
                                int least_pairs);

}  // namespace versolay
