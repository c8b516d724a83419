// Coloured lines and words over existing artwork: a layer for an image editor.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "artwork/rgba.h"
#include "core/drawing.h"
#include "versolay/paper.h"

namespace versolay {

/// A line and the thin halo beside it, of opposite lightness: one of the two holds on any artwork.
struct LineStyle {
  std::string name;  // what it is: becomes the id of a group in the SVG
  std::array<std::uint8_t, 3> rgb{};
  std::array<std::uint8_t, 3> halo{};
  double width_mm = 0.15;
  double dash_mm = 0.0;  // 0: solid
  double gap_mm = 0.0;
};

inline constexpr double kHaloMm = 0.07;  // on either side of a line

/// Every straight piece of a dashed line begins and ends with half a dash, so that corners are
/// drawn and dashes of two lines that coincide do too.
struct LayerLine {
  LineStyle style;
  std::vector<Point<PageMm>> points;
  bool closed = false;
};

struct GuidesLayer {
  Paper paper;
  std::vector<LayerLine> lines;
  std::vector<Text> notes;  // aligned left, turned by 0 or 90 degrees; black with a white halo
};

/// An SVG of the whole page: width and height in mm, one user unit a page millimetre with the
/// origin in the middle, lines of one name in one group, words as words.
std::string svg_of(const GuidesLayer& layer);

/// Lines and words on a transparent page of pixels at `ppi`, with soft edges.
/// Throws Error when the font is missing and there are notes.
RgbaImage picture_of(const GuidesLayer& layer, double ppi);

}  // namespace versolay
