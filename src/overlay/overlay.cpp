#include "overlay/overlay.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/numbers.h"
#include "measure/sampler.h"
#include "overlay/overlay_canvas.h"
#include "words/direction_words.h"
#include "words/miss_words.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr int kLongSidePx = 1600;
constexpr double kMagnification = 150.0;  // of every line and arrow that shows a distance
constexpr double kScaleBarMm = 0.1;
constexpr double kSamePlaceMm = 0.01;

int quarter_turns_to_upright(const Affine<PageMm, ScanPx>& page_from_scan) {
  const Eigen::Matrix2d& m = page_from_scan.linear();
  const double angle = std::atan2(m(1, 0) - m(0, 1), m(0, 0) + m(1, 1));
  return (static_cast<int>(std::lround(angle / (M_PI / 2))) + 4) % 4;
}

bool is_in_the_picture(const SideMiss& miss) {
  const auto* hole = std::get_if<HoleMiss>(&miss.miss);
  return hole ? *hole != HoleMiss::outside : std::get<EdgeMiss>(miss.miss) != EdgeMiss::outside;
}

/// In the waste of a job a place without a ring is no failure: guides and words take some of them.
bool has_ring_at_every_place(const SideReading& side) { return !side.correction; }

/// Draws one scan whose marks were read.
class SideDrawing {
 public:
  SideDrawing(Canvas& canvas, const SideReading& side, const SheetReading* sheet)
      : canvas_(canvas),
        side_(side),
        sheet_(sheet),
        geometry_(side.geometry),
        scan_from_page_(side.page_from_scan.inverse()),
        px_per_mm_(px_per_mm(scan_from_page_)) {}

  void draw() {
    draw_missing_rings();
    for (const RingUse& ring : side_.rings) draw(ring);
    for (const SideFeature& feature : side_.places.features) draw(feature);
    draw_missed_holes();
    draw_missed_edges();
  }

 private:
  bool recto() const { return side_.identity.side == Side::recto; }
  /// A place or direction of the front, on the page that this scan shows.
  Point<PageMm> on_page(const Point<RectoMm>& p) const {
    return recto() ? relabel<PageMm>(p) : relabel<PageMm>(verso_from_recto(geometry_.axis())(p));
  }
  Eigen::Vector2d on_page_from_verso(const Eigen::Vector2d& v) const {
    return recto() ? recto_from_verso(geometry_.axis()).linear() * v : v;
  }
  Point<ScanPx> in_picture(const Point<PageMm>& p) const {
    return side_.camera ? side_.camera->scan_from_page(p) : scan_from_page_(p);
  }
  Point<ScanPx> shifted(const Point<ScanPx>& p, const Eigen::Vector2d& by_page_mm) const {
    return Point<ScanPx>::from(p.vec() + scan_from_page_.linear() * by_page_mm);
  }

  void draw_missing_rings() {
    if (!has_ring_at_every_place(side_)) return;
    for (const Mark& mark : geometry_.marks) {
      if (mark.kind != MarkKind::ring || mark.side != side_.identity.side) continue;
      const bool seen = std::any_of(side_.rings.begin(), side_.rings.end(), [&](const RingUse& r) {
        return (r.page.vec() - mark.at.vec()).norm() < kSamePlaceMm;
      });
      if (!seen && !outside(mark.at)) canvas_.diamond(in_picture(mark.at), pen::kTrouble);
    }
  }

  /// The picture does not show this part of the page: half of a large sheet.
  bool outside(const Point<PageMm>& ring) const {
    return std::find(side_.rings_outside.begin(), side_.rings_outside.end(), ring) !=
           side_.rings_outside.end();
  }

  void draw(const RingUse& ring) {
    if (!ring.used) {
      canvas_.cross(ring.seen, pen::kTrouble);
      return;
    }
    const Eigen::Vector2d off = ring.seen.vec() - in_picture(ring.page).vec();
    canvas_.circle(ring.seen, geometry_.ring.outer_radius_mm * px_per_mm_, pen::kRing, 1);
    canvas_.line(ring.seen, Point<ScanPx>::from(ring.seen.vec() + kMagnification * off), pen::kRing,
                 1);
  }

  const FeatureReading* in_sheet(const std::string& id) const {
    if (sheet_ == nullptr) return nullptr;
    const auto found = std::find_if(sheet_->features.begin(), sheet_->features.end(),
                                    [&](const FeatureReading& f) { return f.id == id; });
    return found == sheet_->features.end() ? nullptr : &*found;
  }

  void draw(const SideFeature& feature) {
    const FeatureReading* const used = in_sheet(feature.id);
    const bool left_out = sheet_ != nullptr && used == nullptr;
    const cv::Scalar& colour = left_out ? pen::kTrouble : pen::kHole;
    if (feature.kind == FeatureKind::edge) {
      const Eigen::Vector2d along = 4.0 * Eigen::Vector2d(-feature.normal.y(), feature.normal.x());
      canvas_.line(shifted(feature.seen, -along), shifted(feature.seen, along), colour, 4);
    } else {
      canvas_.circle(feature.seen, feature.radius_mm * px_per_mm_, colour, 2);
      canvas_.circle(feature.seen, (feature.radius_mm + 0.8) * px_per_mm_, colour, 1);
      canvas_.words(shifted(feature.seen, {0.0, -feature.radius_mm - 2.0}),
                    left_out ? tr("{}: left out", feature.id) : feature.id, colour);
    }
    if (left_out) canvas_.cross(feature.seen, pen::kTrouble);
    if (used != nullptr) {
      canvas_.arrow(feature.seen,
                    shifted(feature.seen, kMagnification * on_page_from_verso(used->residual_mm)),
                    colour);
    }
  }

  void draw_missed_holes() {
    for (const SideMiss& miss : side_.misses) {
      const auto* reason = std::get_if<HoleMiss>(&miss.miss);
      if (reason == nullptr || *reason == HoleMiss::outside) continue;
      for (const HolePlace& place : geometry_.holes) {
        if (place.id != miss.id) continue;
        const Point<ScanPx> at = in_picture(on_page(place.at));
        canvas_.box(at, place.clear_radius_mm * px_per_mm_, pen::kTrouble);
        canvas_.words(shifted(at, {0.0, -place.clear_radius_mm - 0.8}),
                      miss.id + ": " + words::words_for(*reason), pen::kTrouble);
      }
    }
  }

  /// A box at each place; one line of words for each edge and reason.
  void draw_missed_edges() {
    using Edge = std::pair<double, double>;  // where it faces
    std::map<std::pair<Edge, EdgeMiss>, std::vector<Point<PageMm>>> places;
    for (const SideMiss& miss : side_.misses) {
      const auto* reason = std::get_if<EdgeMiss>(&miss.miss);
      if (reason == nullptr || *reason == EdgeMiss::outside) continue;
      for (const EdgePlace& place : geometry_.edges) {
        if (place.id != miss.id) continue;
        const auto at =
            on_page(Point<RectoMm>::from(place.ring.vec() + 0.75 * place.inset_mm * place.outward));
        canvas_.box(in_picture(at), 1.5 * px_per_mm_, pen::kTrouble);
        places[{Edge(place.outward.x(), place.outward.y()), *reason}].push_back(at);
      }
    }
    double lower = 0.0;  // words for several reasons do not cover each other
    for (const auto& [edge, at] : places) {
      Eigen::Vector2d middle = Eigen::Vector2d::Zero();
      for (const Point<PageMm>& p : at) middle += p.vec() / static_cast<double>(at.size());
      const Eigen::Vector2d inward = -6.0 * middle.normalized();
      canvas_.words(in_picture(Point<PageMm>::from(middle + inward + Eigen::Vector2d(0.0, lower))),
                    trn("edge at {} place: {}", "edge at {} places: {}", at.size(),
                        words::words_for(edge.second)),
                    pen::kTrouble);
      lower += 1.0;
    }
  }

  Canvas& canvas_;
  const SideReading& side_;
  const SheetReading* sheet_;
  const TargetGeometry geometry_;
  const Affine<ScanPx, PageMm> scan_from_page_;
  const double px_per_mm_;
};

std::string found_in(const SideReading& side) {
  const auto edges =
      std::count_if(side.places.features.begin(), side.places.features.end(),
                    [](const SideFeature& f) { return f.kind == FeatureKind::edge; });
  const auto holes = static_cast<std::ptrdiff_t>(side.places.features.size()) - edges;
  const auto missed = std::count_if(side.misses.begin(), side.misses.end(), [](const SideMiss& m) {
    const auto* edge = std::get_if<EdgeMiss>(&m.miss);
    return edge != nullptr && *edge != EdgeMiss::outside;
  });
  return tr(
      "Found: {} of {} rings, {} holes, {} of {} places along the edges.{}", side.rings_found,
      side.rings_expected, holes, edges, edges + missed,
      side.camera ? tr(" Read as a photograph: perspective and lens distortion are removed.") : "");
}

std::string landed(const SheetReading& sheet) {
  const Registration& r = sheet.registration;
  const auto size = [](double v, int decimals) { return format_fixed(std::abs(v), decimals); };
  return tr(
      "The back landed {} mm to the {}, {} mm too far {}, turned {} {} (seen from the back). "
      "Read from {}.{}",
      size(r.dx_mm, 3), r.dx_mm < 0 ? tr("left") : tr("right"), size(r.dy_mm, 3),
      r.dy_mm < 0 ? tr("up") : tr("down"), angle_words(std::abs(r.rotation_mrad)),
      r.rotation_mrad < 0 ? tr("anticlockwise") : tr("clockwise"), words::datum_words(sheet.datum),
      sheet.datum_notes.empty() ? "" : " " + words::say_all(sheet.datum_notes));
}

std::vector<KeyLine> key_to(const SideReading& side, bool with_residuals) {
  const auto shows = [&](bool edge) {
    return std::any_of(side.places.features.begin(), side.places.features.end(),
                       [&](const SideFeature& f) { return (f.kind == FeatureKind::edge) == edge; });
  };
  const std::string_view cause =
      side.camera ? tr("distortion left by the lens") : tr("distortion by the scanner");
  std::vector<KeyLine> key = {{Sign::ring, tr("printed ring; line: {} ({} mm rms). It is removed",
                                              cause, format_fixed(side.page_rms_mm, 3))}};
  if (shows(false)) key.push_back({Sign::hole, tr("hole")});
  if (shows(true)) key.push_back({Sign::edge, tr("place on the edge of the paper")});
  if (with_residuals) {
    key.push_back({Sign::arrow, tr("distance from the fit of the whole sheet")});
  }
  key.push_back({Sign::cross, tr("left out: it disagrees with the others")});
  if (has_ring_at_every_place(side) && static_cast<int>(side.rings.size()) < side.rings_expected) {
    key.push_back({Sign::diamond, tr("ring that was not found: covered, torn off or not printed")});
  }
  if (std::any_of(side.misses.begin(), side.misses.end(), is_in_the_picture)) {
    key.push_back({Sign::box, tr("could not be read, and why")});
  }
  const double bar_mm = kMagnification * kScaleBarMm;
  key.push_back({Sign::scale,
                 tr("{} mm: lines and arrows are magnified {} times", format_number(kScaleBarMm, 2),
                    static_cast<int>(kMagnification)),
                 bar_mm * px_per_mm(side.page_from_scan.inverse())});
  return key;
}

std::string page_name(const SideReading& side) {
  return tr("sheet {} {}", side.identity.sheet,
            side.identity.side == Side::recto ? tr("FRONT") : tr("BACK"));
}

}  // namespace

ScanThumbnail thumbnail_of(const Scan& scan, const Result<SideReading>& reading) {
  const GreyImage& grey = scan.grey;
  double finer_across = 1.0;  // pixels per mm, along the rows over along the columns
  if (reading) {
    const Eigen::Vector2d mm_per_px = reading.value().page_from_scan.linear().colwise().norm();
    finer_across = mm_per_px.y() / mm_per_px.x();
  }
  const double across = std::max(1.0, finer_across);
  const double down = std::max(1.0, 1.0 / finer_across);
  const double long_side = std::max(grey.width / across, grey.height / down);
  const double factor = std::max(1.0, std::ceil(long_side / kLongSidePx));
  const Reduction by{std::min(static_cast<int>(std::lround(factor * across)), grey.width),
                     std::min(static_cast<int>(std::lround(factor * down)), grey.height)};
  return {scan.name(), reduce_by_area(grey, by), by};
}

OverlayPicture draw_overlay(const ScanThumbnail& picture, const Result<SideReading>& reading,
                            const SheetVerdict* verdict) {
  if (!reading) {
    return Canvas(picture, 0)
        .framed(tr("NOT USED: {}", picture.name), true, {words::say(reading.refusal())}, {});
  }
  const SideReading& side = reading.value();
  const SheetReading* const sheet = verdict && *verdict ? &verdict->value() : nullptr;
  Canvas canvas(picture, quarter_turns_to_upright(side.page_from_scan));
  SideDrawing(canvas, side, sheet).draw();

  std::vector<std::string> paragraphs;
  if (sheet != nullptr) {
    paragraphs.push_back(landed(*sheet));
    for (const Notice& n : sheet->warnings) paragraphs.push_back(tr("Note: {}", words::say(n)));
  } else if (verdict != nullptr) {
    paragraphs.push_back(words::say(verdict->refusal()));
  }
  paragraphs.push_back(found_in(side));
  return canvas.framed(sheet ? tr("USED: {}, {}", page_name(side), picture.name)
                             : tr("NOT USED: {}, {}", page_name(side), picture.name),
                       sheet == nullptr, paragraphs, key_to(side, sheet != nullptr));
}

}  // namespace versolay
