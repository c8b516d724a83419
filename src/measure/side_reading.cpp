#include "measure/side_reading.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "core/numbers.h"
#include "core/translation.h"
#include "measure/carriage_jerk.h"
#include "measure/code.h"
#include "measure/page_view.h"
#include "measure/photograph_check.h"
#include "measure/picture_check.h"
#include "measure/ring.h"
#include "measure/scanner_map.h"
#include "measure/tags.h"
#include "target/geometry.h"
#include "target/waste_geometry.h"

namespace versolay {
namespace {

constexpr int kLeastSidePx = 200;
constexpr double kLeastBelievableScale = 0.85;
constexpr double kMostBelievableScale = 1.15;
constexpr double kFirstReachMm = 1.2;    // after the tags
constexpr double kSecondReachMm = 0.6;   // after the first rings
constexpr double kTagLimitMm = 3.0;      // from the map of the others: this tag is none of ours
constexpr double kLeastRingShare = 0.5;  // of those that the picture shows
constexpr double kMostRingsShare = 0.95;

/// Of the outer radius of a ring: farther off, what stands beside it is taken for it.
constexpr double kReachShare = 0.5;

/// What is known of the size of errors that the scatter of one rim cannot show:
/// neighbouring points of a rim or an edge share the paper's fibres, a cut is never quite square.
constexpr double kRimCorrelation = 2.0;
constexpr double kLeastReadingMm = 0.001;
constexpr double kPunchFloorMm = 0.006;
constexpr double kPrickFloorMm = 0.026;
constexpr double kEdgeCorrelation = 4.0;
constexpr double kEdgeFloorMm = 0.008;
constexpr double kEdgeSharedMm = 0.015;
/// What a carriage that wobbles with a period of a few millimetres does to them beyond what it does
/// to rings: all of it to pricks and edges, to punched holes the share that a circle of that size
/// does not average away, 2 (J0(x) - J1(x) / x), x = 2 pi radius / period. Where the rings show no
/// more, a usual carriage is assumed.
constexpr double kPunchCarriageShare = 1.0 / 3;
constexpr double kUsualJerkMm = 0.015;
constexpr double kJerkWarnMm = 0.030;

/// What a photograph adds: the paper's surface differs between a rim and the rings beside it; the
/// sharpening and the lens treat a dark hole and a thin line differently.
constexpr double kPhotographHoleMm = 0.012;
constexpr double kPhotographEdgeMm = 0.040;
/// Of paper and card that cards are made of. A camera that looks aslant sees the near rim of a hole
/// on top of the paper and the far one beneath it, and so the middle nearer to itself by half of
/// thickness * slope. Thickness and slope are both known to a third or so.
constexpr double kUsualThicknessMm = 0.2;
constexpr double kParallaxUncertainty = 0.6;  // share of the correction, one sigma
/// Per unit of slope, alike for all that one photograph shows: rims and lines are blurred by more
/// micrometres where they are farther away.
constexpr double kAskewSharedMm = 0.04;

constexpr double kRingClearMm = 0.8;  // around a ring, to count as shown by the picture
constexpr double kNearHoleMm = 16.0;  // the rings of its station
constexpr double kNearMarksWarnMm = 0.040;
constexpr double kNearMarksFailMm = 0.080;
constexpr int kLeastMarksOfASmear = 3;
constexpr double kNearMarksWarnShare = 0.3;  // of the rings of a station that were left out
constexpr double kNearMarksFailShare = 0.6;
constexpr double kEdgeClearMm = 0.5;  // from the rim of a ring
constexpr double kEdgeReachMm = 8.0;  // of a print that lies askew or was shrunk to fit the page

Notice carriage_jerks(const std::string& scan_name, double jerk_mm) {
  return {"carriage_jerks",
          tr("The scanner jerked along {} by about {:.2f} mm every few millimetres, too fast "
             "for the marks to follow: offsets can be wrong by as much. Scan at a higher "
             "resolution, which is slower, and scan each side a second time, turned round.",
             scan_name, jerk_mm)};
}

Refusal too_few_rings(int found, int expected, PictureKind kind) {
  if (kind == PictureKind::photograph) {
    return {"too_few_marks",
            tr("This looks like a photograph: only {} of {} rings of this page can be read. Hold "
               "the camera still and straight above the sheet, in even light, so that the sheet "
               "fills the picture and is sharp all over.",
               found, expected)};
  }
  return {"too_few_marks", tr("Only {} of {} rings of this page can be read. Press the sheet flat, "
                              "clean the glass and scan again at 300 dpi or more.",
                              found, expected)};
}

/// The tags that belong together: the kind of sheet, the side and the slot that most of them name.
std::vector<TagSighting> agreeing(const std::vector<TagSighting>& all) {
  const auto key = [](const TagSighting& tag) {
    return std::tuple{tag.meaning.production, tag.meaning.slot, tag.meaning.side};
  };
  std::map<std::tuple<bool, int, Side>, int> votes;
  for (const TagSighting& tag : all) ++votes[key(tag)];
  const auto most = std::max_element(
      votes.begin(), votes.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  std::vector<TagSighting> chosen;
  for (const TagSighting& tag : all) {
    if (key(tag) == most->first) chosen.push_back(tag);
  }
  return chosen;
}

/// What the codes of a page say of it.
struct PageContent {
  PageIdentity identity;
  TargetGeometry geometry;
  int rings = 0;                           // printed
  std::optional<Registration> correction;  // production sheets
};

int count_rings(const TargetGeometry& geometry, Side side) {
  return static_cast<int>(std::count_if(
      geometry.marks.begin(), geometry.marks.end(),
      [&](const Mark& mark) { return mark.kind == MarkKind::ring && mark.side == side; }));
}

std::optional<PageContent> content_of(const GreyImage& scan, const std::vector<TagSighting>& tags) {
  for (const TagSighting& tag : tags) {
    if (tag.meaning.production) {
      const auto page = read_waste_code_near(scan, tag);
      if (!page) continue;
      return PageContent{page->identity,
                         waste_geometry(page->identity.paper, page->identity.turn, page->layout),
                         page->layout.rings, page->correction};
    }
    if (const auto identity = read_code_near(scan, tag)) {
      TargetGeometry geometry = target_geometry(identity->paper, identity->turn);
      const int rings = count_rings(geometry, identity->side);
      return PageContent{*identity, std::move(geometry), rings, std::nullopt};
    }
  }
  return std::nullopt;
}

std::vector<PagePair> tag_corners(const std::vector<TagSighting>& tags,
                                  const TargetGeometry& geometry, Side side) {
  std::vector<PagePair> pairs;
  for (const Mark& mark : geometry.marks) {
    if (mark.kind != MarkKind::tag || mark.side != side) continue;
    for (const TagSighting& tag : tags) {
      if (tag.meaning.position != tag_position(mark)) continue;
      const double half = tag.side_mm() / 2;
      const std::array<Point<PageMm>, 4> corners = {{{mark.at.x - half, mark.at.y - half},
                                                     {mark.at.x + half, mark.at.y - half},
                                                     {mark.at.x + half, mark.at.y + half},
                                                     {mark.at.x - half, mark.at.y + half}}};
      for (std::size_t i = 0; i < 4; ++i) pairs.push_back({tag.corners[i], corners[i]});
    }
  }
  return pairs;
}

/// From three tags or more the scales of both axes are known; from two, that across their line only
/// by the size of the tags themselves, which counts when the pixels are plainly not square.
Affine<ScanPx, PageMm> coarse_map(const std::vector<TagSighting>& tags,
                                  const TargetGeometry& geometry, Side side) {
  std::vector<PagePair> corners = tag_corners(tags, geometry, side);
  if (tags.size() >= 3) {
    const auto fit = fit_page(corners, kTagLimitMm, 3 * 4);
    if (fit) return fit->page_from_scan.inverse();
  }
  double proportion = 0.0;  // of the pixels: down over across
  for (const TagSighting& tag : tags) {
    const Eigen::Vector2d px_per_mm = tag.px_per_mm();
    proportion += px_per_mm.x() / px_per_mm.y() / static_cast<double>(tags.size());
  }
  if (std::abs(proportion - 1.0) < 0.05) proportion = 1.0;
  for (PagePair& corner : corners) corner.scan.y *= proportion;
  const Affine<ScanPx, PageMm> square = fit_similarity(corners);
  const Eigen::Vector2d back(1.0, 1.0 / proportion);
  return {back.asDiagonal() * square.linear(), back.cwiseProduct(square.offset())};
}

template <class Use>
void for_each_ring(const TargetGeometry& geometry, Side side, const Use& use) {
  for (const Mark& mark : geometry.marks) {
    if (mark.kind == MarkKind::ring && mark.side == side) use(mark.at);
  }
}

std::vector<Point<PageMm>> rings_outside(const Sampler& image, const TargetGeometry& geometry,
                                         Side side, const PageView& view) {
  std::vector<Point<PageMm>> outside;
  for_each_ring(geometry, side, [&](const Point<PageMm>& at) {
    const auto scan_from_page = view.scan_from_page_around(at);
    const double px_per_mm = std::sqrt(std::abs(scan_from_page.linear().determinant()));
    const double margin_px = (geometry.ring.outer_radius_mm + kRingClearMm) * px_per_mm;
    if (!image.inside(scan_from_page(at), margin_px)) outside.push_back(at);
  });
  return outside;
}

std::vector<PagePair> find_rings_roughly(const Sampler& image, const TargetGeometry& geometry,
                                         Side side, const PageView& view) {
  std::vector<PagePair> found;
  for_each_ring(geometry, side, [&](const Point<PageMm>& at) {
    const auto scan_from_page = view.scan_from_page_around(at);
    const double reach = std::min(kFirstReachMm, kReachShare * geometry.ring.outer_radius_mm);
    const auto seen = find_ring_roughly(image, scan_from_page, at, geometry.ring, reach);
    if (seen) found.push_back({scan_from_page(*seen), at});
  });
  return found;
}

/// A camera that looks aslant sees a circle's near half larger, and so its middle nearer to itself
/// than it is. How far, is told by a circle that is put through the camera's map.
Point<ScanPx> true_middle(const PageView& view, const Point<PageMm>& place,
                          const Point<ScanPx>& seen, double radius_mm) {
  if (!view.camera()) return seen;
  constexpr int kPlaces = 16;
  const auto page_from_scan = view.page_from_scan_around(place);
  Eigen::Vector2d off = Eigen::Vector2d::Zero();
  for (int i = 0; i < kPlaces; ++i) {
    const double angle = 2 * M_PI * i / kPlaces;
    const Eigen::Vector2d direction(std::cos(angle), std::sin(angle));
    const auto rim =
        view.camera()->scan_from_page(Point<PageMm>::from(place.vec() + radius_mm * direction));
    const double radius = (page_from_scan(rim).vec() - place.vec()).norm();
    off += 2.0 / kPlaces * (radius - radius_mm) * direction;
  }
  return Point<ScanPx>::from(seen.vec() - page_from_scan.inverse().linear() * off);
}

struct RingsSeen {
  std::vector<PagePair> rings;
  std::vector<RingStretch> stretches;  // of each ring
  std::optional<PageView> view;        // through them
};

RingsSeen find_rings(const Sampler& image, const TargetGeometry& geometry, Side side,
                     const PageView& view) {
  RingsSeen found;
  for_each_ring(geometry, side, [&](const Point<PageMm>& at) {
    const auto ring =
        find_ring(image, view.scan_from_page_around(at), at, geometry.ring, kSecondReachMm);
    if (!ring) return;
    found.rings.push_back({true_middle(view, at, ring->centre, geometry.ring.outer_radius_mm), at});
    found.stretches.push_back({ring->centre, ring->second_harmonic_mm});
  });
  found.view = PageView::from_rings(found.rings, image.width_px(), image.height_px());
  return found;
}

RingsSeen see_rings_from(const Sampler& image, const TargetGeometry& geometry, Side side,
                         const PageView& first) {
  const auto rough = PageView::from_rings(find_rings_roughly(image, geometry, side, first),
                                          image.width_px(), image.height_px());
  if (!rough) return {};
  RingsSeen seen = find_rings(image, geometry, side, *rough);
  // The view of a camera grows from the part of the page where the first one held.
  while (seen.view && seen.view->kind() == PictureKind::photograph) {
    RingsSeen more = find_rings(image, geometry, side, *seen.view);
    if (more.rings.size() <= seen.rings.size()) break;
    seen = std::move(more);
  }
  return seen;
}

double jerk_of(const RingsSeen& seen, const RingSize& size, const ScannerMap& map) {
  if (seen.view->kind() == PictureKind::photograph) return 0.0;  // a camera has no carriage
  return carriage_jerk_sd_mm(seen.stretches, (size.outer_radius_mm + size.inner_radius_mm) / 2,
                             map);
}

/// As a scanner shows them; when many are missing then, as a camera does.
RingsSeen see_rings(const Sampler& image, const TargetGeometry& geometry, Side side,
                    const std::vector<TagSighting>& tags) {
  RingsSeen scanned =
      see_rings_from(image, geometry, side, PageView(coarse_map(tags, geometry, side)));
  const auto used = [](const RingsSeen& seen) { return seen.view ? seen.view->used() : 0; };
  if (used(scanned) >= kMostRingsShare * count_rings(geometry, side)) return scanned;
  const auto camera =
      PageView::of_camera(tag_corners(tags, geometry, side), image.width_px(), image.height_px());
  if (!camera) return scanned;
  RingsSeen photographed = see_rings_from(image, geometry, side, *camera);
  const bool better = photographed.view && photographed.view->kind() == PictureKind::photograph &&
                      used(photographed) > used(scanned);
  return better ? photographed : scanned;
}

/// Size of the print by the scanner's own resolution, along the axes of the page. No printer is off
/// by 15 %: then it is the file that names another resolution than the scan's.
PrintedScale printed_scale(const Affine<PageMm, ScanPx>& page_from_scan, const Scan& scan) {
  if (!scan.dpi_x || !scan.dpi_y) return {};
  const Eigen::Vector2d mm_per_px(25.4 / *scan.dpi_x, 25.4 / *scan.dpi_y);
  const Eigen::Matrix2d scan_mm_per_page_mm =
      mm_per_px.asDiagonal() * page_from_scan.inverse().linear();
  const Eigen::Vector2d scale = scan_mm_per_page_mm.colwise().norm();
  if (scale.minCoeff() < kLeastBelievableScale || scale.maxCoeff() > kMostBelievableScale)
    return {};
  return {scale.x(), scale.y()};
}

/// Something read on the paper, before the scanner's map is applied.
struct RawFeature {
  SideFeature feature;
  double sd_mm = 0.0;  // of this scan's reading, one axis
};

void find_holes(const Sampler& image, const TargetGeometry& geometry, const PageView& view,
                SideReading& reading, std::vector<RawFeature>& found) {
  for (const HolePlace& place : geometry.holes) {
    const Point<PageMm> expected =
        reading.identity.side == Side::recto
            ? relabel<PageMm>(place.at)
            : relabel<PageMm>(verso_from_recto(geometry.axis())(place.at));
    const auto hole = find_hole(image, view.page_from_scan_around(expected), expected, place.kind,
                                place.clear_radius_mm);
    if (const auto* miss = std::get_if<HoleMiss>(&hole)) {
      if (*miss != HoleMiss::none_made) reading.misses.push_back({place.id, *miss});
      continue;
    }
    const auto& sighting = std::get<HoleSighting>(hole);
    const bool punched = place.kind == HoleKind::punch;
    found.push_back({{place.id,
                      punched ? FeatureKind::punch : FeatureKind::prick,
                      {},
                      {0.0, 0.0},
                      true_middle(view, expected, sighting.centre, sighting.radius_mm),
                      sighting.radius_mm,
                      punched ? kPunchFloorMm : kPrickFloorMm,
                      {}},
                     std::max(kLeastReadingMm, std::sqrt(kRimCorrelation) * sighting.rim_sd_mm)});
  }
}

/// What the rings of one station say of themselves.
struct NearMarks {
  int seen = 0;
  int left_out = 0;      // they disagree with all the others
  double rms_mm = 0.0;   // one axis, of those that were kept
  double most_mm = 0.0;  // of all

  bool is_marked() const { return rms_mm > kNearMarksWarnMm || is_share(kNearMarksWarnShare); }
  bool is_useless() const { return rms_mm > kNearMarksFailMm || is_share(kNearMarksFailShare); }

 private:
  /// A ring or two that are left out are dust; several at one place are a smear.
  bool is_share(double share) const {
    return left_out >= kLeastMarksOfASmear && left_out >= share * seen;
  }
};

/// Rings around a hole that disagree with each other, or that had to be left out: smeared ink, or
/// paper that is not flat.
void check_marks_near_holes(const std::vector<PagePair>& rings, const ScannerMap& map,
                            const PageView& view, SideReading& reading,
                            std::vector<RawFeature>& found) {
  const auto errors_mm = map.prediction_errors_mm(rings);
  const auto marks_near = [&](const Point<PageMm>& hole) {
    NearMarks near;
    double squares = 0.0;
    for (std::size_t i = 0; i < rings.size(); ++i) {
      if ((rings[i].page.vec() - hole.vec()).norm() > kNearHoleMm) continue;
      ++near.seen;
      near.left_out += map.kept()[i] ? 0 : 1;
      squares += map.kept()[i] ? errors_mm[i] * errors_mm[i] / 2 : 0.0;
      near.most_mm = std::max(near.most_mm, errors_mm[i]);
    }
    const int kept = near.seen - near.left_out;
    if (kept > 0) near.rms_mm = std::sqrt(squares / kept);
    return near;
  };
  const auto is_smeared = [&](const RawFeature& raw) {
    if (raw.feature.kind == FeatureKind::edge) return false;
    const NearMarks near = marks_near(view.page_from_scan(raw.feature.seen));
    if (!near.is_marked()) return false;
    reading.warnings.push_back(
        {"marks_smeared", tr("Marks near {} on {} are smeared or the paper is not flat: they "
                             "disagree by up to {} mm.",
                             raw.feature.id, reading.scan_name, format_fixed(near.most_mm, 2))});
    if (!near.is_useless()) return false;
    reading.misses.push_back({raw.feature.id, HoleMiss::marks_smeared});
    return true;
  };
  std::erase_if(found, is_smeared);
}

void find_edges(const Sampler& image, const TargetGeometry& geometry, const PageView& view,
                SideReading& reading, std::vector<RawFeature>& found) {
  const Eigen::Matrix2d mirror = verso_from_recto(geometry.axis()).linear();
  const double clear = geometry.ring.outer_radius_mm + kEdgeClearMm;
  for (const EdgePlace& place : geometry.edges) {
    const bool recto = reading.identity.side == Side::recto;
    const auto ring = Point<PageMm>::from(recto ? place.ring.vec() : mirror * place.ring.vec());
    const Eigen::Vector2d outward = recto ? place.outward : mirror * place.outward;
    const auto edge = find_edge(image, view.scan_from_page_around(ring), ring, outward, clear,
                                place.inset_mm, kEdgeReachMm);
    if (const auto* miss = std::get_if<EdgeMiss>(&edge)) {
      reading.misses.push_back({place.id, *miss});
      continue;
    }
    const auto& sighting = std::get<EdgeSighting>(edge);
    found.push_back({{place.id, FeatureKind::edge, {}, outward, sighting.at, 0.0, kEdgeFloorMm, {}},
                     std::max(kLeastReadingMm, std::sqrt(kEdgeCorrelation) * sighting.sd_mm)});
  }
}

double carriage_sd_mm(FeatureKind kind, double jerk_mm) {
  const double sd = std::max(jerk_mm, kUsualJerkMm);
  return kind == FeatureKind::punch ? kPunchCarriageShare * sd : sd;
}

/// An edge's own error is partly one and the same all along it: the cut's bevel, the lamp's side.
double shared_variance(const SideFeature& a, const SideFeature& b) {
  const bool same_edge =
      a.kind == FeatureKind::edge && b.kind == FeatureKind::edge && a.normal.dot(b.normal) > 0.5;
  return same_edge ? kEdgeSharedMm * kEdgeSharedMm : 0.0;
}

/// Where a scan would show what a photograph shows at `p`: perspective and lens are taken out.
Point<ScanPx> flattened(const Point<ScanPx>& p, const PageView& view) {
  constexpr double kPxPerMm = 10.0;
  if (!view.camera()) return p;
  return Point<ScanPx>::from(kPxPerMm * view.camera()->page_from_scan(p).vec());
}

double photograph_sd_mm(FeatureKind kind, const PageView& view) {
  if (view.kind() == PictureKind::scan) return 0.0;
  return kind == FeatureKind::edge ? kPhotographEdgeMm : kPhotographHoleMm;
}

/// Puts back the middles of holes that a camera saw aslant, and allows for what else slant does.
/// What is uncertain about the correction, thickness of the paper and height of the camera, is the
/// same for all holes.
void allow_for_slant(const CameraStand& stand, SideReading& reading) {
  const auto n = static_cast<Eigen::Index>(reading.features.size());
  Eigen::VectorXd corrections = Eigen::VectorXd::Zero(2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    SideFeature& feature = reading.features[static_cast<std::size_t>(i)];
    if (feature.kind == FeatureKind::edge) continue;  // the rim on top is the one that is seen
    const Eigen::Vector2d slope = (feature.at.vec() - stand.foot.vec()) / stand.height_mm;
    corrections.segment<2>(2 * i) = kUsualThicknessMm / 2 * slope;
    feature.at = Point<PageMm>::from(feature.at.vec() + corrections.segment<2>(2 * i));
  }
  reading.scan_covariance_mm2 +=
      kParallaxUncertainty * kParallaxUncertainty * corrections * corrections.transpose();
  const double shared_mm = kAskewSharedMm * stand.foot.vec().norm() / stand.height_mm;
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      reading.scan_covariance_mm2.block<2, 2>(2 * i, 2 * j).diagonal().array() +=
          shared_mm * shared_mm;
    }
  }
}

void place_on_page(const std::vector<RawFeature>& found, const ScannerMap& map,
                   const PageView& view, double jerk_mm, SideReading& reading) {
  std::vector<Point<ScanPx>> seen;
  Eigen::VectorXd carriage_mm(static_cast<Eigen::Index>(found.size()));
  for (const RawFeature& raw : found) {
    const bool scanned = view.kind() == PictureKind::scan;  // a camera has no carriage
    carriage_mm[static_cast<Eigen::Index>(seen.size())] =
        scanned ? carriage_sd_mm(raw.feature.kind, jerk_mm) : 0.0;
    seen.push_back(flattened(raw.feature.seen, view));
  }
  PagePlaces places = map.page_places(seen);
  reading.scan_covariance_mm2 = places.covariance_mm2 - places.ring_covariance_mm2 +
                                map.carriage_covariance_mm2(seen, carriage_mm);
  reading.ring_response = std::move(places.ring_response);
  reading.ring_sd_mm = map.ring_sd_mm();
  for (std::size_t i = 0; i < found.size(); ++i) {
    reading.features.push_back(found[i].feature);
    reading.features.back().at = places.at[i];
    const double own_sd = std::hypot(found[i].sd_mm, photograph_sd_mm(found[i].feature.kind, view));
    reading.features.back().print = map.print_errors();
    reading.scan_covariance_mm2.diagonal().segment<2>(static_cast<Eigen::Index>(2 * i)).array() +=
        own_sd * own_sd;
  }
  if (view.camera()) allow_for_slant(view.camera()->stand(), reading);
}

}  // namespace

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

Result<SideReading> read_side(const Scan& scan) {
  const GreyImage& grey = scan.grey;
  if (std::min(grey.width, grey.height) < kLeastSidePx) {
    return Refusal{
        "no_marks",
        tr("This picture is only {} x {} pixels large. Scan the whole sheet at 200 dpi or more.",
           grey.width, grey.height)};
  }
  const std::vector<TagSighting> all_tags = find_page_tags(scan);
  if (all_tags.empty()) return why_no_target(scan);
  const std::vector<TagSighting> tags = agreeing(all_tags);
  if (tags.size() < 2) {
    const Refusal reason = why_no_target(scan);
    if (reason.code == "mirrored") return reason;
    return Refusal{"too_few_marks", tr("Only one corner tag of the sheet can be seen. Scan the "
                                       "whole sheet, flat and with its corners on the glass.")};
  }
  if (all_tags.size() >= 2 * tags.size()) {
    return Refusal{
        "mixed_marks",
        tr("This scan shows more than one sheet. Scan one side of one sheet at a time.")};
  }
  const auto content = content_of(grey, tags);
  if (!content) {
    return Refusal{"identity_unreadable",
                   tr("The square codes near the corners cannot be read, so the sheet is not "
                      "known. Scan again at 300 dpi or more, without cropping or sharpening.")};
  }

  SideReading reading;
  reading.identity = content->identity;
  reading.correction = content->correction;
  reading.scan_name = scan.name();
  reading.warnings = scan.warnings;
  reading.geometry = content->geometry;
  const TargetGeometry& geometry = reading.geometry;
  const Side side = content->identity.side;
  const Sampler image(grey);
  const RingsSeen seen = see_rings(image, geometry, side, tags);
  const std::vector<PagePair>& rings = seen.rings;
  const std::optional<PageView>& page = seen.view;
  reading.rings_expected = content->rings;
  if (page) {
    reading.rings_outside = rings_outside(image, geometry, side, *page);
    // In the waste not every place has a ring: as many are taken to be outside as there are places.
    const auto places = static_cast<std::size_t>(count_rings(geometry, side));
    const std::size_t inside = places - reading.rings_outside.size();
    reading.rings_expected = static_cast<int>(content->rings * inside / places);
  }
  if (!page || page->used() < kLeastRingShare * reading.rings_expected) {
    return too_few_rings(page ? page->used() : 0, reading.rings_expected,
                         page ? page->kind() : PictureKind::scan);
  }
  reading.camera = page->camera();
  if (reading.camera) {
    if (const auto refusal = check_photograph(*reading.camera, geometry.paper)) return *refusal;
  }
  std::vector<PagePair> flat = rings;
  for (PagePair& pair : flat) pair.scan = flattened(pair.scan, *page);
  const auto map = ScannerMap::fit(flat, page->kind());
  if (!map) return too_few_rings(page->used(), reading.rings_expected, page->kind());
  for (std::size_t i = 0; i < rings.size(); ++i) {
    reading.rings.push_back({rings[i].scan, rings[i].page, map->kept()[i]});
    reading.rings_found += map->kept()[i] ? 1 : 0;
  }
  reading.page_rms_mm = page->residual_rms_mm();
  reading.page_from_scan = page->page_from_scan();
  if (!reading.camera) reading.printed_scale = printed_scale(page->page_from_scan(), scan);
  std::vector<RawFeature> found;
  find_holes(image, geometry, *page, reading, found);
  find_edges(image, geometry, *page, reading, found);
  check_marks_near_holes(rings, *map, *page, reading, found);
  const double jerk_mm = jerk_of(seen, geometry.ring, *map);
  if (jerk_mm > kJerkWarnMm) reading.warnings.push_back(carriage_jerks(scan.name(), jerk_mm));
  place_on_page(found, *map, *page, jerk_mm, reading);
  return reading;
}

}  // namespace versolay
