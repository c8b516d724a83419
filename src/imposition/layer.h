// Coloured lines over somebody's artwork: a layer for an image editor.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "artwork/rgba.h"
#include "core/drawing.h"
#include "versolay/paper.h"

namespace versolay {

struct LayerLine {
  std::vector<Point<PageMm>> points;
  bool closed = false;
  double width_mm = 0.2;
  double dash_mm = 0.0;  // length of dashes and gaps; 0: solid
  std::array<std::uint8_t, 3> rgb{};
  std::string name;  // what it is: becomes the id of a group in the SVG
};

struct GuidesLayer {
  Paper paper;
  std::vector<LayerLine> lines;
  std::vector<Text> notes;  // in the SVG only
};

/// An SVG of the whole page: its width and height are pixels at `ppi`, its user units are page
/// millimetres, lines of one name are one group.
std::string svg_of(const GuidesLayer& layer, double ppi);

/// The lines on a transparent page of pixels at `ppi`, with soft edges.
RgbaImage picture_of(const GuidesLayer& layer, double ppi);

}  // namespace versolay
