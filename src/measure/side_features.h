// Features of the paper in a picture: its holes and its edges.
#pragma once

#include <Eigen/Core>
#include <string>
#include <variant>
#include <vector>

#include "measure/hole.h"
#include "measure/page_view.h"
#include "measure/paper_edge.h"
#include "measure/print_errors.h"
#include "measure/sampler.h"
#include "target/target_geometry.h"

namespace versolay {

enum class FeatureKind { punch, prick, edge, ring };  // ring: of a further pass, no paper's

/// A feature of the paper itself, in the frame of the page that is printed on this side.
struct SideFeature {
  std::string id;  // of the place in the target's geometry: the same on both sides
  FeatureKind kind = FeatureKind::punch;
  Point<PageMm> at;
  Eigen::Vector2d normal{0.0, 0.0};  // edges: outward, unit; only the place along it is known
  Point<ScanPx> seen;
  double radius_mm = 0.0;             // holes
  Eigen::Vector2d oval_mm{0.0, 0.0};  // holes: second harmonic of the outline, cosine and sine
  double paper_sd_mm = 0.0;  // own error, one axis, that every scan of this side repeats: a rough
                             // rim, the lean of a pin, the cut of an edge
  int pin_sign = 0;          // of HolePlace::pin_sign()
  PrintErrors print;         // around it, as this scan shows them; repeated by every scan
};

/// Joint covariance, 2n x 2n, of the errors that every scan of a side repeats and that no number of
/// scans averages away: those of the features themselves, and of the print around them.
Eigen::MatrixXd repeated_covariance_mm2(const std::vector<SideFeature>& features);

/// A place where something is, that could not be read.
struct SideMiss {
  std::string id;
  std::variant<HoleMiss, EdgeMiss> miss;
  FeatureKind kind = FeatureKind::punch;
  Eigen::Vector2d outward{0.0, 0.0};  // edges: as SideFeature::normal
};

/// A feature before it has a place on the page, and the error of this picture's reading.
struct SeenFeature {
  SideFeature feature;
  double sd_mm = 0.0;  // one axis
};

struct SeenFeatures {
  std::vector<SeenFeature> features;
  std::vector<SideMiss> misses;
};

/// Reads all holes and edges of this kind of page; a hole that was never made does not count as a
/// miss.
SeenFeatures find_features(const Sampler& image, const TargetGeometry& geometry, Side side,
                           const PageView& view);

}  // namespace versolay
