#include "measure/pass_rings.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "measure/affine_fit.h"
#include "measure/findings.h"
#include "measure/median.h"
#include "measure/ring.h"
#include "target/pass_marks.h"

namespace versolay {
namespace {

constexpr double kTagPlayMm = 6.0;     // a pass that is farther off is not where it should be
constexpr double kRoughReachMm = 1.2;  // after the tag
constexpr double kFineReachMm = 0.5;   // after the rough rings
constexpr double kRoughLimitMm = 0.4;  // from the map of the others: this ring is none of ours
constexpr double kInkReachMm = 1.0;    // around a ring
/// Over that of a ring of the first pass: printed twice, 0.08 mm apart or more (a line of 0.42 mm
/// widens by 2/pi of that); closer, it does no harm. Single passes of the simulated printer are
/// within 1 %.
constexpr double kMostInk = 1.12;

/// Of a tag, against the page as one looks at it: 0 upright, 180 degrees half turned.
bool is_upright(const PassTagSighting& tag, const PageView& view) {
  const Eigen::Vector2d along =
      view.page_from_scan(tag.corners[1]).vec() - view.page_from_scan(tag.corners[0]).vec();
  return along.x() > 0;
}

bool is_near(const PassTagSighting& tag, const Point<PageMm>& place, const PageView& view) {
  return (view.page_from_scan(tag.centre()).vec() - place.vec()).norm() < kTagPlayMm;
}

Affine<ScanPx, PageMm> moved(const Affine<ScanPx, PageMm>& scan_from_page,
                             const Eigen::Vector2d& shift_mm) {
  return {scan_from_page.linear(), scan_from_page.offset() + scan_from_page.linear() * shift_mm};
}

/// Darkness of a disc against its own paper, in grey levels times mm^2.
std::optional<double> ink_around(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                                 const Point<PageMm>& at, double radius_mm) {
  constexpr double kStepMm = 0.15;
  std::vector<double> light;
  const int steps = static_cast<int>(radius_mm / kStepMm);
  for (int row = -steps; row <= steps; ++row) {
    for (int column = -steps; column <= steps; ++column) {
      const Eigen::Vector2d off(column * kStepMm, row * kStepMm);
      if (off.norm() > radius_mm) continue;
      const auto p = scan_from_page(Point<PageMm>::from(at.vec() + off));
      if (!image.inside(p)) return std::nullopt;
      light.push_back(image.at(p));
    }
  }
  const double paper = median(light);
  double ink = 0.0;
  for (const double level : light) ink += std::max(0.0, paper - level);
  return ink * kStepMm * kStepMm;
}

/// Of the rings at these places.
double median_ink(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                  const std::vector<Point<PageMm>>& places, const RingSize& ring) {
  std::vector<double> inks;
  for (const Point<PageMm>& place : places) {
    const auto ink = ink_around(image, scan_from_page, place, ring.outer_radius_mm + kInkReachMm);
    if (ink) inks.push_back(*ink);
  }
  return inks.empty() ? 0.0 : median(std::move(inks));
}

double ink_of_first_pass(const Sampler& image, const Affine<ScanPx, PageMm>& scan_from_page,
                         const TargetGeometry& geometry, Side side) {
  std::vector<Point<PageMm>> places;
  for (const Mark& mark : geometry.marks) {
    if (mark.kind == MarkKind::ring && mark.side == side) places.push_back(mark.at);
  }
  return median_ink(image, scan_from_page, places, geometry.ring);
}

/// Reads the rings of one pass.
class PassReader {
 public:
  PassReader(const Sampler& image, const TargetGeometry& geometry, const PassMarks& marks,
             const Affine<ScanPx, PageMm>& scan_from_page)
      : image_(image), geometry_(geometry), marks_(marks), scan_from_page_(scan_from_page) {}

  /// @param shift_mm  of the pass, by its tag.
  /// @return empty: too few of them belong together.
  std::vector<SeenFeature> read(const Eigen::Vector2d& shift_mm, double ring_sd_mm) const {
    const auto by_tag = moved(scan_from_page_, shift_mm);
    std::vector<PagePair> rough;
    for (const Point<PageMm>& place : marks_.rings) {
      const auto seen = find_ring_roughly(image_, by_tag, place, geometry_.ring, kRoughReachMm);
      if (seen) rough.push_back({by_tag(*seen), place});
    }
    const auto fit = fit_page(rough, kRoughLimitMm, kLeastPassRings);
    if (!fit) return {};
    const auto scan_from_pass = fit->page_from_scan.inverse();
    std::vector<SeenFeature> rings;
    for (std::size_t i = 0; i < marks_.rings.size(); ++i) {
      const auto ring =
          find_ring(image_, scan_from_pass, marks_.rings[i], geometry_.ring, kFineReachMm);
      if (!ring) continue;
      SeenFeature& seen = rings.emplace_back();
      seen.feature.id = pass_ring_id(marks_.pass, i);
      seen.feature.kind = FeatureKind::ring;
      seen.feature.seen = ring->centre;
      seen.feature.paper_sd_mm = ring_sd_mm;
      seen.sd_mm = ring->sd_mm;
    }
    if (static_cast<int>(rings.size()) < kLeastPassRings) rings.clear();
    return rings;
  }

  /// Median ink of the places of its rings.
  double ink(const Eigen::Vector2d& shift_mm) const {
    return median_ink(image_, moved(scan_from_page_, shift_mm), marks_.rings, geometry_.ring);
  }

 private:
  const Sampler& image_;
  const TargetGeometry& geometry_;
  const PassMarks& marks_;
  const Affine<ScanPx, PageMm>& scan_from_page_;
};

/// Why a pass has no tag where it should be.
Finding why_missing(const std::string& scan, const PassMarks& marks, Side side,
                    const std::vector<PassTagSighting>& tags, const PageView& view) {
  for (const PassTagSighting& tag : tags) {
    if (tag.meaning.pass != marks.pass) continue;
    if (tag.meaning.side != side) return findings::pass_on_wrong_side(scan, marks.pass);
    if (!is_upright(tag, view)) return findings::pass_fed_round(scan, marks.pass);
  }
  return findings::pass_missing(scan, marks.pass);
}

}  // namespace

PassesSeen find_passes(const Scan& scan, const Sampler& image, const TargetGeometry& geometry,
                       Side side, const std::vector<PassTagSighting>& tags, const PageView& view,
                       double ring_sd_mm) {
  PassesSeen seen;
  if (geometry.passes.empty()) return seen;
  if (view.kind() == PictureKind::photograph) {
    seen.warnings.push_back(findings::passes_need_scans(scan.name()));
    return seen;
  }
  const Affine<ScanPx, PageMm> scan_from_page = view.page_from_scan().inverse();
  const double most_ink = kMostInk * ink_of_first_pass(image, scan_from_page, geometry, side);
  for (const PassMarks& marks : geometry.passes) {
    std::vector<Eigen::Vector2d> shifts_mm;
    for (const PassTagSighting& tag : tags) {
      if (tag.meaning != PassTagMeaning{marks.pass, side} || !is_upright(tag, view) ||
          !is_near(tag, marks.tag(side), view)) {
        continue;
      }
      shifts_mm.push_back(view.page_from_scan(tag.centre()).vec() - marks.tag(side).vec());
    }
    if (shifts_mm.empty()) {
      seen.warnings.push_back(why_missing(scan.name(), marks, side, tags, view));
      continue;
    }
    const PassReader reader(image, geometry, marks, scan_from_page);
    if (shifts_mm.size() > 1 || reader.ink(shifts_mm.front()) > most_ink) {
      seen.warnings.push_back(findings::pass_printed_twice(scan.name(), marks.pass));
      continue;
    }
    std::vector<SeenFeature> rings = reader.read(shifts_mm.front(), ring_sd_mm);
    if (rings.empty()) {
      seen.warnings.push_back(findings::pass_unclear(scan.name(), marks.pass));
      continue;
    }
    std::move(rings.begin(), rings.end(), std::back_inserter(seen.rings));
  }
  return seen;
}

}  // namespace versolay
