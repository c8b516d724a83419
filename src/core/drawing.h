// What is to be put on a page, in page millimetres, before anybody decides whether it becomes a
// PDF or an SVG.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "versolay/frames.h"

namespace versolay {

/// Black ink, 0 none .. 1 solid. Marks are 1, so that only the black ink prints.
struct Black {
  double k = 1.0;
};

/// Upright rectangle; top < bottom, because y points down.
struct PageRect {
  double left_mm = 0.0;
  double top_mm = 0.0;
  double right_mm = 0.0;
  double bottom_mm = 0.0;

  double width_mm() const { return right_mm - left_mm; }
  double height_mm() const { return bottom_mm - top_mm; }
  Point<PageMm> centre() const { return {(left_mm + right_mm) / 2, (top_mm + bottom_mm) / 2}; }
  bool operator==(const PageRect&) const = default;
};

/// Filled circle; `inner_radius_mm` > 0 makes it a ring.
struct Disc {
  Point<PageMm> centre;
  double outer_radius_mm = 0.0;
  double inner_radius_mm = 0.0;
  Black ink;
};

/// Filled polygon.
struct Polygon {
  std::vector<Point<PageMm>> corners;
  Black ink;
};

/// Filled upright rectangles of one ink; where they overlap they are one. The modules of a code are
/// hundreds of them.
struct Boxes {
  std::vector<PageRect> boxes;
  Black ink;
};

/// Line through the points. `dash_mm` > 0: dashes and gaps of that length (at most 8 mm).
struct Polyline {
  std::vector<Point<PageMm>> points;
  double width_mm = 0.1;
  bool closed = false;
  double dash_mm = 0.0;
  Black ink;
};

struct CircleOutline {
  Point<PageMm> centre;
  double radius_mm = 0.0;
  double width_mm = 0.1;
  double dash_mm = 0.0;
  Black ink;
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
  Black ink;
};

using Shape = std::variant<Disc, Polygon, Boxes, Polyline, CircleOutline, Text>;
using Drawing = std::vector<Shape>;

}  // namespace versolay
