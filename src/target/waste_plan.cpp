#include "target/waste_plan.h"

#include <algorithm>
#include <cmath>

namespace versolay {
namespace {

using Eigen::Vector2d;

constexpr double kTagCellMm = kWasteTagCellMm;        // 8 modules of 0.6 mm and their white
constexpr double kCodeLengthMm = kWasteCodeLengthMm;  // 36 modules of 0.33 mm and their white
constexpr double kClearMm = 0.2;                      // between cells and anything else
constexpr double kSlideMm = 0.5;
constexpr double kMostStretchMm = 0.6;  // of the pitch, on the shortest edge of paper
constexpr double kBesideRingsMm = 0.5;  // from the white of a row of rings to guides and words
/// These rings, from every corner on, come before anything else: the scanner's errors are known
/// where rings are, and both edges of a corner are read by them.
constexpr std::size_t kCornerRings = 2;
constexpr double kCornerMm = (kCornerRings - 1) * (kLeastWastePitchMm + kMostStretchMm) +
                             2 * kWasteRing.outer_radius_mm + kWasteRingClearMm;
constexpr int kLeastRings = 16;
constexpr double kRingDepthMm = 2 * kWasteRing.outer_radius_mm + kWasteRingClearMm;

/// Rectangles that only touch do not.
bool overlap(const PageRect& a, const PageRect& b) {
  constexpr double kTouchMm = 1e-6;
  const PageRect common = a.overlap(b);
  return common.width_mm() > kTouchMm && common.height_mm() > kTouchMm;
}

PageRect square(const Point<RectoMm>& centre, double half) {
  return {centre.x - half, centre.y - half, centre.x + half, centre.y + half};
}

bool is_free(const PageRect& r, const std::vector<PageRect>& obstacles) {
  return std::none_of(obstacles.begin(), obstacles.end(),
                      [&](const PageRect& o) { return overlap(r, o); });
}

/// The limits of all marks, from the middle of the page.
Vector2d half_frame(const WasteRoom& room) {
  return {room.paper.width_mm / 2 - room.frame_mm, room.paper.height_mm / 2 - room.frame_mm};
}

double depth_top_bottom(const WasteRoom& r) {
  const double half = half_frame(r).y();
  return std::min(r.inked.top_mm + half, half - r.inked.bottom_mm);
}
double depth_left_right(const WasteRoom& r) {
  const double half = half_frame(r).x();
  return std::min(r.inked.left_mm + half, half - r.inked.right_mm);
}

/// As the code says it; the places are multiples of 0.1 mm but for rounding.
double to_tenths(double mm) { return static_cast<double>(std::lround(mm * 10)) / 10.0; }

/// The four cells of tags with their codes, `slide_mm` from the corners along the edges.
struct Cells {
  Point<RectoMm> tag;  // of the lower right corner; the others by symmetry
  Point<RectoMm> code;
  std::vector<PageRect> rects;
};

Cells cells_at(const WasteRoom& room, bool top_bottom, double slide_mm) {
  const Vector2d half = half_frame(room);
  // Along the edge, then from the frame inwards.
  const auto corner = [&](double along, double inward) {
    return top_bottom ? Point<RectoMm>{half.x() - along, half.y() - inward}
                      : Point<RectoMm>{half.x() - inward, half.y() - along};
  };
  Cells cells;
  cells.tag = corner(slide_mm + kTagCellMm / 2, kTagCellMm / 2);
  cells.code = corner(slide_mm + kTagCellMm / 2 + kWasteCodeFromTagMm, kTagCellMm / 2);
  const Point<RectoMm> outer = corner(slide_mm, 0.0);
  const Point<RectoMm> inner = corner(slide_mm + kTagCellMm + kCodeLengthMm, kTagCellMm);
  for (const double x : {-1.0, 1.0}) {
    for (const double y : {-1.0, 1.0}) {
      const auto [left, right] = std::minmax({x * outer.x, x * inner.x});
      const auto [top, bottom] = std::minmax({y * outer.y, y * inner.y});
      cells.rects.push_back({left, top, right, bottom});
    }
  }
  return cells;
}

std::optional<Cells> place_cells(const WasteRoom& room, const WasteEdges& edges,
                                 const std::vector<PageRect>& obstacles) {
  const Vector2d half = half_frame(room);
  const double most =
      (edges.tags_top_bottom ? half.x() : half.y()) - kTagCellMm - kCodeLengthMm - kClearMm;
  const auto free_cells = [&](double slide) -> std::optional<Cells> {
    Cells cells = cells_at(room, edges.tags_top_bottom, slide);
    const bool free = std::all_of(cells.rects.begin(), cells.rects.end(), [&](const PageRect& r) {
      return is_free(r.grown(kClearMm), obstacles) && !overlap(r.grown(kClearMm), room.inked);
    });
    return free ? std::optional(std::move(cells)) : std::nullopt;
  };
  for (double slide = kCornerMm; slide <= most; slide += kSlideMm) {
    if (auto cells = free_cells(slide)) return cells;
  }
  for (double slide = kCornerMm - kSlideMm; slide >= 0.0; slide -= kSlideMm) {
    if (auto cells = free_cells(slide)) return cells;
  }
  return std::nullopt;
}

std::vector<std::string> edges_with_rows(const WasteEdges& edges) {
  std::vector<std::string> names;
  if (edges.rows_top_bottom) names.insert(names.end(), {"top", "bottom"});
  if (edges.rows_left_right) names.insert(names.end(), {"left", "right"});
  return names;
}

/// Half way between two places for rings, on each half of the edge the free one next to the rings
/// of the corner.
void place_look_through(const std::vector<WastePlace>& places, std::vector<PageRect>& taken,
                        std::vector<Point<RectoMm>>& marks) {
  const double half_size = kWasteRing.outer_radius_mm + kWasteRingClearMm;
  const auto take = [&](std::size_t i) {
    const auto at = Point<RectoMm>::from((places[i].at.vec() + places[i + 1].at.vec()) / 2);
    if (!is_free(square(at, half_size), taken)) return false;
    marks.push_back(at);
    taken.push_back(square(at, half_size));
    return true;
  };
  const std::size_t pairs = places.size() < 2 ? 0 : places.size() - 1;
  for (std::size_t i = kCornerRings; i < pairs / 2; ++i) {
    if (take(i)) break;
  }
  for (std::size_t i = pairs - std::min(pairs, kCornerRings); i-- > pairs / 2;) {
    if (take(i)) break;
  }
}

}  // namespace

std::optional<WasteEdges> waste_edges(const WasteRoom& room) {
  const double top_bottom = depth_top_bottom(room);
  const double left_right = depth_left_right(room);
  WasteEdges edges;
  edges.rows_top_bottom = top_bottom >= kRingDepthMm;
  edges.rows_left_right = left_right >= kRingDepthMm;
  edges.tags_top_bottom = top_bottom >= left_right;
  if (std::max(top_bottom, left_right) < kTagCellMm + kClearMm) return std::nullopt;
  return edges;
}

PageRect area_inside_rows(const WasteRoom& room, const WasteEdges& edges) {
  const Vector2d half = half_frame(room);
  constexpr double kTakenMm = kRingDepthMm + kBesideRingsMm;
  const double x = half.x() - (edges.tags_top_bottom ? 0.0 : kTakenMm);
  const double y = half.y() - (edges.tags_top_bottom ? kTakenMm : 0.0);
  return {-x, -y, x, y};
}

std::optional<std::vector<PageRect>> waste_tag_places(const WasteRoom& room,
                                                      const WasteEdges& edges,
                                                      const std::vector<PageRect>& obstacles) {
  const auto cells = place_cells(room, edges, obstacles);
  if (!cells) return std::nullopt;
  return cells->rects;
}

std::optional<WastePlan> plan_waste_marks(const WasteRoom& room, const WasteEdges& edges,
                                          const std::vector<PageRect>& obstacles) {
  const auto cells = place_cells(room, edges, obstacles);
  if (!cells) return std::nullopt;
  WastePlan plan;
  plan.layout.frame_mm = room.frame_mm;
  plan.layout.rows_top_bottom = edges.rows_top_bottom;
  plan.layout.rows_left_right = edges.rows_left_right;
  plan.layout.tag_x_mm = to_tenths(room.paper.width_mm / 2 - cells->tag.x);
  plan.layout.tag_y_mm = to_tenths(room.paper.height_mm / 2 - cells->tag.y);
  plan.taken = cells->rects;
  for (const double x : {-1.0, 1.0}) {
    for (const double y : {-1.0, 1.0}) {
      plan.codes.push_back({{x * cells->code.x, y * cells->code.y}, !edges.tags_top_bottom});
    }
  }

  std::vector<PageRect> taken = obstacles;
  taken.push_back(room.inked);
  taken.insert(taken.end(), plan.taken.begin(), plan.taken.end());
  const auto names = edges_with_rows(edges);
  for (const std::string& edge : names) {
    place_look_through(waste_places(room.paper, room.frame_mm, edge), taken, plan.look_through);
  }
  for (const std::string& edge : names) {
    for (const WastePlace& place : waste_places(room.paper, room.frame_mm, edge)) {
      const PageRect with_white = square(place.at, kWasteRing.outer_radius_mm + kWasteRingClearMm);
      if (!is_free(with_white, taken)) continue;
      plan.rings.push_back(place.at);
      taken.push_back(square(place.at, kWasteRing.outer_radius_mm));
    }
  }
  plan.layout.rings = static_cast<int>(plan.rings.size());
  if (plan.layout.rings < kLeastRings) return std::nullopt;
  return plan;
}

}  // namespace versolay
