// Positions of a picture's holes and edges on the printed page, with their covariance.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "measure/page_view.h"
#include "measure/scanner_map.h"
#include "measure/side_features.h"

namespace versolay {

/// Error of the features = error of this scan (scan_covariance_mm2, another in every scan)
///                       + ring_response * errors of the printed rings (ring_sd_mm, one axis each)
///                       + error of features and print (repeated_covariance_mm2).
struct FeaturePlaces {
  std::vector<SideFeature> features;
  Eigen::MatrixXd scan_covariance_mm2;  // 2n x 2n: x, y of the first feature, of the second, ...
  Eigen::MatrixXd ring_response;        // 2n x 2r, rings in the order in which the map had them
  double ring_sd_mm = 0.0;
};

/// @param map      through the rings as `view` flattens them.
/// @param jerk_mm  of the carriage, see carriage_jerk_sd_mm().
FeaturePlaces feature_places(const std::vector<SeenFeature>& seen, const ScannerMap& map,
                             const PageView& view, double jerk_mm);

}  // namespace versolay
