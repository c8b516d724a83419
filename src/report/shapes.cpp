#include "report/shapes.h"

#include <algorithm>
#include <cmath>

namespace versolay {
namespace {

constexpr double kMarkMm = 0.95;  // radius of a mark

std::vector<Point<PageMm>> corners_of(const PageRect& r) {
  return {{r.left_mm, r.top_mm},
          {r.right_mm, r.top_mm},
          {r.right_mm, r.bottom_mm},
          {r.left_mm, r.bottom_mm}};
}

struct Move {
  double dx, dy;

  void point(Point<PageMm>& p) const {
    p.x += dx;
    p.y += dy;
  }
  void operator()(Disc& s) const { point(s.centre); }
  void operator()(CircleOutline& s) const { point(s.centre); }
  void operator()(Text& s) const { point(s.at); }
  void operator()(Polygon& s) const {
    for (auto& p : s.corners) point(p);
  }
  void operator()(Boxes& s) const {
    for (PageRect& box : s.boxes) {
      box = {box.left_mm + dx, box.top_mm + dy, box.right_mm + dx, box.bottom_mm + dy};
    }
  }
  void operator()(Polyline& s) const {
    for (auto& p : s.points) point(p);
  }
};

}  // namespace

Polygon filled(const PageRect& rect, double ink) { return {corners_of(rect), {ink}}; }

Polyline outlined(const PageRect& rect, double width_mm, double dash_mm, double ink) {
  return {corners_of(rect), width_mm, true, dash_mm, {ink}};
}

Polyline line(const Point<PageMm>& a, const Point<PageMm>& b, double width_mm, double dash_mm,
              double ink) {
  return {{a, b}, width_mm, false, dash_mm, {ink}};
}

Text label(const Point<PageMm>& at, const std::string& utf8, Align align, bool bold,
           double size_mm) {
  return {.at = at, .utf8 = utf8, .size_mm = size_mm, .align = align, .bold = bold};
}

void add_arrow(Drawing& drawing, const Point<PageMm>& from, const Point<PageMm>& to,
               double width_mm, double head_mm) {
  const Eigen::Vector2d along = to.vec() - from.vec();
  const double length = along.norm();
  if (length <= 0) return;
  const Eigen::Vector2d unit = along / length;
  const Eigen::Vector2d across(-unit.y(), unit.x());
  const double head = std::min(head_mm, 0.6 * length);
  const Eigen::Vector2d neck = to.vec() - head * unit;
  drawing.push_back(line(from, Point<PageMm>::from(neck + 0.3 * head * unit), width_mm));
  drawing.push_back(Polygon{{to, Point<PageMm>::from(neck + 0.4 * head * across),
                             Point<PageMm>::from(neck - 0.4 * head * across)},
                            {}});
}

void add_hatch(Drawing& drawing, const PageRect& rect, double gap_mm, double width_mm) {
  // The lines x + y = c, clipped.
  const double step = gap_mm * std::sqrt(2.0);
  for (double c = rect.left_mm + rect.top_mm + step / 2; c < rect.right_mm + rect.bottom_mm;
       c += step) {
    const double x0 = std::max(rect.left_mm, c - rect.bottom_mm);
    const double x1 = std::min(rect.right_mm, c - rect.top_mm);
    if (x1 > x0) drawing.push_back(line({x0, c - x0}, {x1, c - x1}, width_mm));
  }
}

void add_ring(Drawing& drawing, const Point<PageMm>& at) {
  drawing.push_back(CircleOutline{at, kMarkMm, kLineMm, 0.0, {}});
}

void add_dot(Drawing& drawing, const Point<PageMm>& at) {
  drawing.push_back(Disc{at, kMarkMm, 0.0, {}});
}

void add_square(Drawing& drawing, const Point<PageMm>& at, bool is_filled) {
  const PageRect rect = rect_about(at, 1.8 * kMarkMm, 1.8 * kMarkMm);
  drawing.push_back(filled(rect, is_filled ? 1.0 : 0.0));
  drawing.push_back(outlined(rect, kLineMm));
}

void add_cross(Drawing& drawing, const Point<PageMm>& at, double reach_mm) {
  drawing.push_back(
      line({at.x - reach_mm, at.y - reach_mm}, {at.x + reach_mm, at.y + reach_mm}, kLineMm));
  drawing.push_back(
      line({at.x - reach_mm, at.y + reach_mm}, {at.x + reach_mm, at.y - reach_mm}, kLineMm));
}

void add_plus(Drawing& drawing, const Point<PageMm>& at, double reach_mm) {
  drawing.push_back(line({at.x - reach_mm, at.y}, {at.x + reach_mm, at.y}, 1.5 * kLineMm));
  drawing.push_back(line({at.x, at.y - reach_mm}, {at.x, at.y + reach_mm}, 1.5 * kLineMm));
}

Drawing moved(const Drawing& drawing, double dx_mm, double dy_mm) {
  Drawing result = drawing;
  for (Shape& shape : result) std::visit(Move{dx_mm, dy_mm}, shape);
  return result;
}

}  // namespace versolay
