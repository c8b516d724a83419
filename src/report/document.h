// The content of a report, independent of the output format (web page or PDF).
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/drawing.h"
#include "core/json.h"

namespace versolay {

/// Rows of words. The first column names the row.
struct Table {
  std::string caption;  // one sentence; shown above
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
};

/// Shapes that belong together. A role only adds colour on a screen; what a figure says must be
/// seen from its shapes, inks and words alone.
enum class Role { frame, before, after, mark };

struct Layer {
  Role role = Role::frame;
  Drawing shapes;
};

/// Where values are in a figure: x = x0_mm + mm_per_x * value, likewise y. For programs that read
/// the figure, and for the tests.
struct PlotScale {
  double x0_mm = 0.0;
  double mm_per_x = 1.0;
  double y0_mm = 0.0;
  double mm_per_y = 1.0;
};

/// A picture about `width_mm` wide that fits beside another on an A4 page and alone on a phone. Its
/// origin is its centre, x right, y down.
struct Figure {
  std::string id;     // unique in the document: lower-case letters and hyphens
  std::string title;  // a heading
  std::string alt;    // what one sees in it, for those who do not
  std::string caption;
  double width_mm = 0.0;
  double height_mm = 0.0;
  std::vector<Layer> layers;  // painted in this order
  std::optional<PlotScale> scale;
  Table numbers;           // the same in words; no rows: the caption says it all
  bool life_size = false;  // 1 mm of the figure is to be 1 mm on paper
};

enum class Tone {
  plain,
  lead,     // the verdict
  promise,  // ... and how sure it is
  caution,  // where somebody may get hurt
  command,  // to be typed
};

struct Paragraph {
  std::string text;
  Tone tone = Tone::plain;
};

/// Figures that may be placed side by side.
struct Figures {
  std::vector<Figure> list;
};

/// Results for other wishes, from a table that was computed beforehand: see what_if.h.
struct WhatIfTable {
  Json data;
  Table table;  // the same for paper, and for browsers without scripts
};

using Block = std::variant<Paragraph, Table, Figures, WhatIfTable>;

struct Section {
  std::string id;
  std::string heading;
  std::vector<Block> blocks;
};

struct ReportDocument {
  std::string title;
  std::string subtitle;
  std::vector<Section> sections;
  std::string colophon;  // who made it of what, and when; the last line
};

}  // namespace versolay
