// Shapes to draw on a page, in page millimetres, independent of the output format (PDF or SVG).
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "versolay/frames.h"
#include "versolay/paper.h"

namespace versolay {

/// Black ink, 0 none .. 1 solid. Marks are 1, so that only the black ink prints.
struct Black {
  double k = 1.0;
};

using PageRect = Rect<PageMm>;

/// A rectangle of one side of the sheet, as seen from the other side.
inline PageRect mirrored(const PageRect& r, TurnAxis axis) {
  if (axis == TurnAxis::vertical) return {-r.right_mm, r.top_mm, -r.left_mm, r.bottom_mm};
  return {r.left_mm, -r.bottom_mm, r.right_mm, -r.top_mm};
}

/// Filled circle; `inner_radius_mm` > 0 makes it a ring.
struct Disc {
  Point<PageMm> centre;
  double outer_radius_mm = 0.0;
  double inner_radius_mm = 0.0;
  Black ink{};
};

/// Filled polygon.
struct Polygon {
  std::vector<Point<PageMm>> corners;
  Black ink{};
};

/// Filled upright rectangles of one ink; where they overlap they are one. The modules of a code are
/// hundreds of them.
struct Boxes {
  std::vector<PageRect> boxes;
  Black ink{};
};

/// Line through the points. `dash_mm` > 0: dashes and gaps of that length (at most 8 mm).
struct Polyline {
  std::vector<Point<PageMm>> points;
  double width_mm = 0.1;
  bool closed = false;
  double dash_mm = 0.0;
  Black ink{};
};

struct CircleOutline {
  Point<PageMm> centre;
  double radius_mm = 0.0;
  double width_mm = 0.1;
  double dash_mm = 0.0;
  Black ink{};
};

enum class Align { left, centre, right };

/// One line of text; `at` is on its base line. Clockwise angle in degrees.
struct Text {
  Point<PageMm> at;
  std::string utf8;
  double size_mm = 3.0;  // height of the em square
  Align align = Align::left;
  double angle_deg = 0.0;
  bool bold = false;
  Black ink{};
};

using Shape = std::variant<Disc, Polygon, Boxes, Polyline, CircleOutline, Text>;
using Drawing = std::vector<Shape>;

}  // namespace versolay
