// Small shapes that figures are put together from. Sizes in mm of the figure.
#pragma once

#include <string>

#include "core/drawing.h"

namespace versolay {

inline constexpr double kFigureWidthMm = 88.0;  // two side by side on A4, one on a phone
inline constexpr double kFigureTextMm = 3.2;
inline constexpr double kThinMm = 0.2;
inline constexpr double kLineMm = 0.4;

inline PageRect rect_about(const Point<PageMm>& centre, double width_mm, double height_mm) {
  return {centre.x - width_mm / 2, centre.y - height_mm / 2, centre.x + width_mm / 2,
          centre.y + height_mm / 2};
}

Polygon filled(const PageRect& rect, double ink);
Polyline outlined(const PageRect& rect, double width_mm, double dash_mm = 0.0, double ink = 1.0);
Polyline line(const Point<PageMm>& a, const Point<PageMm>& b, double width_mm, double dash_mm = 0.0,
              double ink = 1.0);
Text label(const Point<PageMm>& at, const std::string& utf8, Align align = Align::centre,
           bool bold = false, double size_mm = kFigureTextMm);

/// A line with a head of `head_mm` at its end (shorter for a short line).
void add_arrow(Drawing& drawing, const Point<PageMm>& from, const Point<PageMm>& to,
               double width_mm = kLineMm, double head_mm = 2.0);

/// Lines at 45 degrees, `gap_mm` apart, that fill the rectangle.
void add_hatch(Drawing& drawing, const PageRect& rect, double gap_mm, double width_mm = kThinMm);

// Marks of a value. Each has a different shape, so that no colour is needed to distinguish them.
void add_ring(Drawing& drawing, const Point<PageMm>& at);
void add_dot(Drawing& drawing, const Point<PageMm>& at);
void add_square(Drawing& drawing, const Point<PageMm>& at, bool is_filled);
void add_cross(Drawing& drawing, const Point<PageMm>& at, double reach_mm = 1.1);  // x
void add_plus(Drawing& drawing, const Point<PageMm>& at, double reach_mm = 2.0);   // +

/// The same shapes, moved.
Drawing moved(const Drawing& drawing, double dx_mm, double dy_mm);

}  // namespace versolay
