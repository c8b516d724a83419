// The features of one side of a sheet, from all scans of that side: repeats, scans rotated by 180
// degrees, shifted scans, parts of a sheet that is larger than the bed. Pictures are never
// stitched; each scan has its own map, and features are combined one by one, with their joint
// covariance.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "measure/side_reading.h"

namespace versolay {

/// How far two scans of one side disagree on the features that both show.
struct ScanDifference {
  std::size_t a = 0;  // indices into the scans
  std::size_t b = 0;
  double rms_mm = 0.0;  // one axis; edges: along the normal
  int values = 0;       // coordinates compared
  bool turned = false;  // the sheet lay the other way (by a quarter turn or more)
};

struct CombinedFeatures {
  std::vector<SideFeature> features;
  /// 2n x 2n: x, y of the first feature, of the second, ... Of an edge only the place along its
  /// normal is known, and only the variance along it means anything.
  Eigen::MatrixXd covariance_mm2;
  std::vector<ScanDifference> differences;  // of all pairs of scans that share features
  /// Observed over stated variance of a single scan, pooled with the statement; 1 for one scan.
  double scan_variance_factor = 1.0;
};

/// Generalised least squares, feature by feature, weighted by the inverse of the covariance of each
/// scan. Errors that all scans repeat (the print's, the feature's own) do not average away: they
/// leave the weights alone and are added afterwards, the rings' through the weights, so that rings
/// seen in several scans are not taken for several rings. Where scans share features, their
/// disagreement rescales what the scans claim: factor (nu0 + chi2) / (nu0 + dof), nu0 = 6.
/// Precondition: all scans are of one side of one sheet.
CombinedFeatures combine_scans(const std::vector<SideReading>& scans);

}  // namespace versolay
