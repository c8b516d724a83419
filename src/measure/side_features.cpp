#include "measure/side_features.h"

#include <algorithm>
#include <cmath>

#include "target/geometry.h"

namespace versolay {
namespace {

/// Errors that the scatter of one rim cannot show: neighbouring points of a rim or an edge share
/// the paper's fibres, a cut is never quite square. All sizes are from memory of paper, punches and
/// pins. How well the uncertainty then holds: tests/bench/README.md, second simulator (punched
/// holes and pricks hold, edges are stated twice too large).
constexpr double kRimCorrelation = 2.0;
constexpr double kLeastReadingMm = 0.001;
constexpr double kPunchFloorMm = 0.006;
constexpr double kPrickFloorMm = 0.026;
constexpr double kEdgeCorrelation = 4.0;
constexpr double kEdgeFloorMm = 0.008;
constexpr double kEdgeSharedMm = 0.015;

constexpr double kEdgeClearMm = 0.5;  // from the rim of a ring
constexpr double kEdgeReachMm = 8.0;  // of a print that lies askew or was shrunk to fit the page

void find_holes(const Sampler& image, const TargetGeometry& geometry, Side side,
                const PageView& view, SeenFeatures& found) {
  for (const HolePlace& place : geometry.holes) {
    const Point<PageMm> expected =
        side == Side::recto ? relabel<PageMm>(place.at)
                            : relabel<PageMm>(verso_from_recto(geometry.axis())(place.at));
    const auto hole = find_hole(image, view.page_from_scan_around(expected), expected, place.kind,
                                place.clear_radius_mm);
    const FeatureKind kind =
        place.kind == HoleKind::punch ? FeatureKind::punch : FeatureKind::prick;
    if (const auto* miss = std::get_if<HoleMiss>(&hole)) {
      if (*miss != HoleMiss::none_made) found.misses.push_back({place.id, *miss, kind});
      continue;
    }
    const auto& sighting = std::get<HoleSighting>(hole);
    found.features.push_back(
        {.feature = {.id = place.id,
                     .kind = kind,
                     .at = {},
                     .seen = view.true_middle(expected, sighting.centre, sighting.radius_mm),
                     .radius_mm = sighting.radius_mm,
                     .oval_mm = sighting.oval_mm,
                     .paper_sd_mm = kind == FeatureKind::punch ? kPunchFloorMm : kPrickFloorMm,
                     .pin_sign = place.pin_sign(),
                     .print = {}},
         .sd_mm = std::max(kLeastReadingMm, std::sqrt(kRimCorrelation) * sighting.rim_sd_mm)});
  }
}

void find_edges(const Sampler& image, const TargetGeometry& geometry, Side side,
                const PageView& view, SeenFeatures& found) {
  const Eigen::Matrix2d mirror = verso_from_recto(geometry.axis()).linear();
  const double clear = geometry.ring.outer_radius_mm + kEdgeClearMm;
  const bool recto = side == Side::recto;
  for (const EdgePlace& place : geometry.edges) {
    const auto ring = Point<PageMm>::from(recto ? place.ring.vec() : mirror * place.ring.vec());
    const Eigen::Vector2d outward = recto ? place.outward : mirror * place.outward;
    const auto edge = find_edge(image, view.scan_from_page_around(ring), ring, outward, clear,
                                place.inset_mm, kEdgeReachMm);
    if (const auto* miss = std::get_if<EdgeMiss>(&edge)) {
      found.misses.push_back({place.id, *miss, FeatureKind::edge, outward});
      continue;
    }
    const auto& sighting = std::get<EdgeSighting>(edge);
    found.features.push_back(
        {.feature = {.id = place.id,
                     .kind = FeatureKind::edge,
                     .at = {},
                     .normal = outward,
                     .seen = sighting.at,
                     .paper_sd_mm = kEdgeFloorMm,
                     .print = {}},
         .sd_mm = std::max(kLeastReadingMm, std::sqrt(kEdgeCorrelation) * sighting.sd_mm)});
  }
}

/// An edge's own error is partly one and the same all along it: the cut's bevel, the lamp's side.
double shared_variance(const SideFeature& a, const SideFeature& b) {
  const bool same_edge =
      a.kind == FeatureKind::edge && b.kind == FeatureKind::edge && a.normal.dot(b.normal) > 0.5;
  return same_edge ? kEdgeSharedMm * kEdgeSharedMm : 0.0;
}

}  // namespace

SeenFeatures find_features(const Sampler& image, const TargetGeometry& geometry, Side side,
                           const PageView& view) {
  SeenFeatures found;
  find_holes(image, geometry, side, view, found);
  find_edges(image, geometry, side, view, found);
  return found;
}

Eigen::MatrixXd repeated_covariance_mm2(const std::vector<SideFeature>& features) {
  const auto n = static_cast<Eigen::Index>(features.size());
  // Of several scans each may have seen the printer's errors a little differently.
  PrintErrors print;
  std::vector<Point<PageMm>> places;
  for (const SideFeature& feature : features) {
    places.push_back(feature.at);
    for (const std::size_t axis : {0, 1}) {
      print.varying_along_mm2[axis] +=
          feature.print.varying_along_mm2[axis] / static_cast<double>(features.size());
    }
  }
  Eigen::MatrixXd covariance = covariance_mm2(print, places);
  for (Eigen::Index i = 0; i < n; ++i) {
    const SideFeature& a = features[static_cast<std::size_t>(i)];
    covariance.block<2, 2>(2 * i, 2 * i).diagonal().array() += a.paper_sd_mm * a.paper_sd_mm;
    for (Eigen::Index j = 0; j < n; ++j) {
      covariance.block<2, 2>(2 * i, 2 * j).diagonal().array() +=
          shared_variance(a, features[static_cast<std::size_t>(j)]);
    }
  }
  return covariance;
}

}  // namespace versolay
