#include "target/module_drawing.h"

#include <algorithm>

namespace versolay {
void add_modules(Drawing& drawing, const ModuleGrid& modules, Point<PageMm> centre,
                 double module_mm) {
  const double x0 = centre.x - modules.columns * module_mm / 2;
  const double y0 = centre.y - modules.rows * module_mm / 2;
  const auto corner = [&](int row, int column) {
    return Point<PageMm>{x0 + column * module_mm, y0 + row * module_mm};
  };
  const auto box = [](const Point<PageMm>& from, const Point<PageMm>& to) {
    return PageRect{from.x, from.y, to.x, to.y};
  };
  Boxes runs;
  // Horizontal runs and, over them, vertical runs.
  for (const bool by_rows : {true, false}) {
    const int lines = by_rows ? modules.rows : modules.columns;
    const int length = by_rows ? modules.columns : modules.rows;
    const auto black = [&](int line, int i) {
      return by_rows ? modules.at(line, i) : modules.at(i, line);
    };
    for (int line = 0; line < lines; ++line) {
      for (int i = 0; i < length;) {
        int end = i;
        while (end < length && black(line, end)) ++end;
        if (end > i) {
          runs.boxes.push_back(box(by_rows ? corner(line, i) : corner(i, line),
                                   by_rows ? corner(line + 1, end) : corner(end, line + 1)));
        }
        i = std::max(end, i + 1);
      }
    }
  }
  drawing.push_back(std::move(runs));
}

}  // namespace versolay
