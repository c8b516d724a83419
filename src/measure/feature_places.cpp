#include "measure/feature_places.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "measure/carriage_jerk.h"

namespace versolay {
namespace {

/// What a carriage that wobbles with a period of a few millimetres does to them beyond what it does
/// to rings: all of it to pricks and edges, to punched holes the share that a circle of that size
/// does not average away, 2 (J0(x) - J1(x) / x), x = 2 pi radius / period. Where the rings show no
/// more, a usual carriage is assumed.
constexpr double kPunchCarriageShare = 1.0 / 3;
constexpr double kUsualJerkMm = 0.015;
/// A gear that shows has a period of some 4 mm. Half of it is left in a punched hole, and as much
/// again in the rings beside it, each its own way. Places that lie a whole number of periods apart
/// move equally, and no ring shows how many do: half of the variance is taken to be shared by all
/// of a kind. The half is from memory; tests/bench/README.md, "gear 60 um at 4 mm", shows what it
/// holds.
constexpr double kPunchGearShare = 0.7;
constexpr double kGearShared = 0.5;

/// What a photograph adds: the paper's surface differs between a rim and the rings beside it; the
/// sharpening and the lens treat a dark hole and a thin line differently.
constexpr double kPhotographHoleMm = 0.012;
constexpr double kPhotographEdgeMm = 0.040;
/// Of paper and card that cards are made of. A camera that looks aslant sees the near rim of a hole
/// on top of the paper and the far one beneath it, and so the middle nearer to itself by half of
/// thickness * slope. Thickness and slope are both known to a third or so.
constexpr double kUsualThicknessMm = 0.2;
constexpr double kParallaxUncertainty = 0.6;  // share of the correction, one sigma
/// Per unit of slope, the same for all that one photograph shows: rims and lines are blurred by
/// more micrometres where they are farther away.
constexpr double kAskewSharedMm = 0.04;

double photograph_sd_mm(FeatureKind kind, const PageView& view) {
  if (view.kind() == PictureKind::scan) return 0.0;
  return kind == FeatureKind::edge ? kPhotographEdgeMm : kPhotographHoleMm;
}

/// Puts back the middles of holes that a camera saw aslant, and allows for what else slant does.
/// What is uncertain about the correction, thickness of the paper and height of the camera, is the
/// same for all holes.
void allow_for_slant(const CameraStand& stand, FeaturePlaces& places) {
  const auto n = static_cast<Eigen::Index>(places.features.size());
  Eigen::VectorXd corrections = Eigen::VectorXd::Zero(2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    SideFeature& feature = places.features[static_cast<std::size_t>(i)];
    if (feature.kind == FeatureKind::edge) continue;  // the rim on top is the one that is seen
    const Eigen::Vector2d slope = (feature.at.vec() - stand.foot.vec()) / stand.height_mm;
    corrections.segment<2>(2 * i) = kUsualThicknessMm / 2 * slope;
    feature.at = Point<PageMm>::from(feature.at.vec() + corrections.segment<2>(2 * i));
  }
  places.scan_covariance_mm2 +=
      kParallaxUncertainty * kParallaxUncertainty * corrections * corrections.transpose();
  const double shared_mm = kAskewSharedMm * stand.foot.vec().norm() / stand.height_mm;
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      places.scan_covariance_mm2.block<2, 2>(2 * i, 2 * j).diagonal().array() +=
          shared_mm * shared_mm;
    }
  }
}

double share_of(FeatureKind kind, double jerk_mm) {
  if (kind == FeatureKind::ring) return 0.0;  // as the rings beside them, which the map goes by
  if (kind != FeatureKind::punch) return 1.0;
  return is_a_gear(jerk_mm) ? kPunchGearShare : kPunchCarriageShare;
}

Eigen::MatrixXd carriage_covariance_mm2(const std::vector<SeenFeature>& seen,
                                        const std::vector<Point<ScanPx>>& flat,
                                        const ScannerMap& map, double jerk_mm) {
  const auto sds_mm = [&](const std::function<bool(FeatureKind)>& counts) {
    Eigen::VectorXd sds = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(seen.size()));
    for (std::size_t i = 0; i < seen.size(); ++i) {
      const FeatureKind kind = seen[i].feature.kind;
      if (!counts(kind)) continue;
      sds[static_cast<Eigen::Index>(i)] = share_of(kind, jerk_mm) * std::max(jerk_mm, kUsualJerkMm);
    }
    return sds;
  };
  if (!is_a_gear(jerk_mm)) {
    return map.carriage_covariance_mm2(flat, sds_mm([](FeatureKind) { return true; }), 0.0);
  }
  const auto of_kind = [&](FeatureKind kind) {
    const auto sds = sds_mm([=](FeatureKind other) { return other == kind; });
    return map.carriage_covariance_mm2(flat, sds, kGearShared);
  };
  return of_kind(FeatureKind::punch) + of_kind(FeatureKind::prick) + of_kind(FeatureKind::edge);
}

}  // namespace

FeaturePlaces feature_places(const std::vector<SeenFeature>& seen, const ScannerMap& map,
                             const PageView& view, double jerk_mm) {
  std::vector<Point<ScanPx>> flat;
  for (const SeenFeature& s : seen) flat.push_back(view.flattened(s.feature.seen));
  PagePlaces pages = map.page_places(flat);
  FeaturePlaces places;
  places.scan_covariance_mm2 = pages.covariance_mm2 - pages.ring_covariance_mm2;
  if (view.kind() == PictureKind::scan) {
    places.scan_covariance_mm2 += carriage_covariance_mm2(seen, flat, map, jerk_mm);
  }
  places.ring_response = std::move(pages.ring_response);
  places.ring_sd_mm = map.ring_sd_mm();
  for (std::size_t i = 0; i < seen.size(); ++i) {
    SideFeature& feature = places.features.emplace_back(seen[i].feature);
    feature.at = pages.at[i];
    feature.print = map.print_errors();
    const double own_sd = std::hypot(seen[i].sd_mm, photograph_sd_mm(feature.kind, view));
    places.scan_covariance_mm2.diagonal().segment<2>(static_cast<Eigen::Index>(2 * i)).array() +=
        own_sd * own_sd;
  }
  if (view.camera()) allow_for_slant(view.camera()->stand(), places);
  return places;
}

}  // namespace versolay
