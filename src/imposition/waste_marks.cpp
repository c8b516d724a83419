#include "imposition/waste_marks.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "layout/placement.h"
#include "pdf/fonts.h"

namespace versolay {
namespace {

constexpr double kLeastFrameMm = 3.0;  // a print that lies askew still shows the paper's edge
constexpr double kBesideMm = 0.3;      // between guides or words and the white of a mark

class Bounds {
 public:
  void include(const Point<PageMm>& p, double around_mm) {
    rect_.left_mm = std::min(rect_.left_mm, p.x - around_mm);
    rect_.top_mm = std::min(rect_.top_mm, p.y - around_mm);
    rect_.right_mm = std::max(rect_.right_mm, p.x + around_mm);
    rect_.bottom_mm = std::max(rect_.bottom_mm, p.y + around_mm);
  }
  const PageRect& rect() const { return rect_; }

 private:
  static constexpr double kFar = std::numeric_limits<double>::max();
  PageRect rect_{kFar, kFar, -kFar, -kFar};
};

struct BoundsOf {
  PageRect operator()(const Disc& d) const { return around(d.centre, d.outer_radius_mm); }
  PageRect operator()(const CircleOutline& c) const {
    return around(c.centre, c.radius_mm + c.width_mm);
  }
  PageRect operator()(const Polygon& p) const {
    Bounds bounds;
    for (const Point<PageMm>& corner : p.corners) bounds.include(corner, kBesideMm);
    return bounds.rect();
  }
  PageRect operator()(const Boxes& b) const {
    Bounds bounds;
    for (const PageRect& box : b.boxes) {
      bounds.include({box.left_mm, box.top_mm}, kBesideMm);
      bounds.include({box.right_mm, box.bottom_mm}, kBesideMm);
    }
    return bounds.rect();
  }
  PageRect operator()(const Polyline& p) const {
    Bounds bounds;
    for (const Point<PageMm>& point : p.points) bounds.include(point, p.width_mm / 2 + kBesideMm);
    return bounds.rect();
  }
  /// Whichever way it is turned and aligned.
  PageRect operator()(const Text& t) const {
    const double length = text_width_mm(t.utf8, t.size_mm, t.bold);
    return around(t.at, t.align == Align::centre ? std::max(length / 2, t.size_mm) : length);
  }

 private:
  static PageRect around(const Point<PageMm>& centre, double radius) {
    Bounds bounds;
    bounds.include(centre, radius + kBesideMm);
    return bounds.rect();
  }
};

/// Keeps the middle of the strip, between the tags at its ends.
void shorten(std::optional<SlugPlace>& slug, const std::vector<PageRect>& taken) {
  if (!slug) return;
  PageRect& strip = slug->strip;
  const bool lies = slug->side == SlugSide::top || slug->side == SlugSide::bottom;
  for (const PageRect& t : taken) {
    if (t.right_mm + kBesideMm <= strip.left_mm || t.left_mm - kBesideMm >= strip.right_mm ||
        t.bottom_mm + kBesideMm <= strip.top_mm || t.top_mm - kBesideMm >= strip.bottom_mm) {
      continue;
    }
    if (lies && t.centre().x < 0) strip.left_mm = std::max(strip.left_mm, t.right_mm + kBesideMm);
    if (lies && t.centre().x > 0) strip.right_mm = std::min(strip.right_mm, t.left_mm - kBesideMm);
    if (!lies && t.centre().y < 0) strip.top_mm = std::max(strip.top_mm, t.bottom_mm + kBesideMm);
    if (!lies && t.centre().y > 0) {
      strip.bottom_mm = std::min(strip.bottom_mm, t.top_mm - kBesideMm);
    }
  }
}

}  // namespace

double most_moved_mm(const Paper& paper, double margin_mm, const Registration& correction) {
  const PageRect area = printable_area(paper, margin_mm);
  double most = 0.0;
  for (const Point<VersoMm>& corner : {Point<VersoMm>{area.left_mm, area.top_mm},
                                       {area.right_mm, area.top_mm},
                                       {area.left_mm, area.bottom_mm},
                                       {area.right_mm, area.bottom_mm}}) {
    most = std::max(most, correction.displacement_mm(corner).cwiseAbs().maxCoeff());
  }
  return most;
}

std::optional<WasteMarks> WasteMarks::fit(const WasteMarksRequest& r) {
  WasteMarks marks;
  marks.identity_ = {r.paper, r.turn, r.run, 1, Side::recto};
  const double frame =
      std::max(kLeastFrameMm, r.margin_mm + most_moved_mm(r.paper, r.margin_mm, r.correction));
  const Reach widest{std::max(r.front.x_mm, r.back.x_mm), std::max(r.front.y_mm, r.back.y_mm)};
  marks.room_ = {r.paper, std::ceil(frame * 10 - 1e-6) / 10.0, recto_extent(r.grid, widest)};
  const auto edges = waste_edges(marks.room_);
  if (!edges) return std::nullopt;
  marks.edges_ = *edges;
  marks.area_ = area_inside_rows(marks.room_, *edges);
  marks.words_ = r.words;
  marks.look_through_ = look_through_size(std::min(r.back.x_mm, r.back.y_mm));
  return marks;
}

bool WasteMarks::place(const Drawing& guides, std::optional<SlugPlace>& recto_slug,
                       std::optional<SlugPlace>& verso_slug) {
  const TurnAxis axis = turn_axis(identity_.turn, identity_.paper);
  std::vector<PageRect> obstacles;
  for (const Shape& shape : guides) obstacles.push_back(std::visit(BoundsOf{}, shape));
  const auto tags = waste_tag_places(room_, edges_, obstacles);
  if (!tags) return false;
  shorten(recto_slug, *tags);  // the tags are symmetric: the same on both sides
  shorten(verso_slug, *tags);
  if (recto_slug) obstacles.push_back(recto_slug->strip);
  if (verso_slug) obstacles.push_back(mirrored(verso_slug->strip, axis));
  auto plan = plan_waste_marks(room_, edges_, obstacles);
  if (!plan) return false;
  plan_ = std::move(*plan);
  place_note(std::move(obstacles));
  return true;
}

void WasteMarks::place_note(std::vector<PageRect> taken) {
  note_.reset();
  if (words_.empty()) return;
  taken.insert(taken.end(), plan_.taken.begin(), plan_.taken.end());
  constexpr double kClearMm = kWasteRing.outer_radius_mm + kWasteRingClearMm;
  for (const auto* marks : {&plan_.rings, &plan_.look_through}) {
    for (const Point<RectoMm>& p : *marks) {
      taken.push_back({p.x - kClearMm, p.y - kClearMm, p.x + kClearMm, p.y + kClearMm});
    }
  }
  note_ = waste_note(words_, area_, room_.inked, taken);
}

ProductionPage WasteMarks::identity_of_page(int sheet, Side side,
                                            const Registration& correction) const {
  ProductionPage page{identity_, plan_.layout, correction};
  page.identity.sheet = sheet;
  page.identity.side = side;
  return page;
}

Drawing WasteMarks::page(int sheet, Side side, const Registration& correction) const {
  Drawing drawing =
      waste_marks_drawing(plan_, identity_of_page(sheet, side, correction), look_through_);
  if (note_) {
    const TurnAxis axis = turn_axis(identity_.turn, identity_.paper);
    drawing.push_back(
        text_of(*note_, side == Side::recto ? note_->box : mirrored(note_->box, axis)));
  }
  return drawing;
}

}  // namespace versolay
