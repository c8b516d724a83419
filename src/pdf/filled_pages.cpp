#include "pdf/filled_pages.h"

#include <algorithm>

#include "pdf/text_block.h"

namespace versolay {

FilledPages::FilledPages(const Paper& paper, const Style& style) : paper_(paper), style_(style) {
  new_page();
}

void FilledPages::new_page() {
  pages_.push_back({paper_, {}, {}, {}});
  y_ = -paper_.height_mm / 2 + style_.margin_mm + style_.line_mm;
}

bool FilledPages::has_room(std::size_t lines) const {
  return y_ + (static_cast<double>(lines) - 1) * style_.line_mm <= bottom();
}

void FilledPages::text(const Cell& cell, double y_mm, double size_mm) {
  Text text;
  text.at = {left() + cell.x_mm, y_mm};
  text.utf8 = cell.utf8;
  text.size_mm = size_mm;
  text.align = cell.align;
  text.bold = cell.bold;
  drawing().push_back(text);
}

void FilledPages::line(const std::string& utf8, double indent_mm, double size_mm, bool bold) {
  if (!has_room(1)) new_page();
  text({indent_mm, utf8, Align::left, bold}, y_, size_mm);
  y_ += std::max(style_.line_mm, 1.25 * size_mm);
}

void FilledPages::paragraph(const std::string& utf8, bool bold) {
  for (const std::string& text : wrapped(utf8, width_mm(), style_.text_mm, bold)) {
    line(text, 0.0, style_.text_mm, bold);
  }
}

void FilledPages::title(const std::string& utf8, double size_mm) {
  for (const std::string& text : wrapped(utf8, width_mm(), size_mm, true)) {
    line(text, 0.0, size_mm, true);
  }
}

void FilledPages::heading(const std::string& utf8) {
  constexpr std::size_t kLinesTogether = 4;
  gap(1.3);
  if (!has_room(kLinesTogether)) new_page();
  line(utf8, 0.0, 1.15 * style_.text_mm, true);
  gap(0.1);
}

void FilledPages::tick_box(const std::string& utf8) {
  const double box = 0.95 * style_.text_mm;
  const double indent = 2 * box;
  bool first = true;
  for (const std::string& text : wrapped(utf8, width_mm() - indent, style_.text_mm)) {
    line(text, indent, style_.text_mm, false);
    if (!first) continue;
    first = false;
    const Point<PageMm> a{left(), y_ - style_.line_mm - 0.85 * box};
    drawing().push_back(Polyline{
        {a, {a.x + box, a.y}, {a.x + box, a.y + box}, {a.x, a.y + box}}, 0.25, true, 0.0, {}});
  }
}

Point<PageMm> FilledPages::picture(double height_mm) {
  const double top = y_ - style_.text_mm;
  if (top + height_mm > bottom()) {
    new_page();
    return picture(height_mm);
  }
  y_ += height_mm;
  return {0.0, top};
}

std::size_t FilledPages::lines_of(const Row& row) const {
  std::size_t lines = 1;
  for (const Cell& cell : row) {
    if (cell.width_mm <= 0) continue;
    lines = std::max(lines, wrapped(cell.utf8, cell.width_mm, style_.text_mm, cell.bold).size());
  }
  return lines;
}

void FilledPages::row(const Row& row) {
  for (const Cell& cell : row) {
    double y = y_;
    const auto lines = cell.width_mm > 0
                           ? wrapped(cell.utf8, cell.width_mm, style_.text_mm, cell.bold)
                           : std::vector{cell.utf8};
    for (const std::string& words : lines) {
      text({cell.x_mm, words, cell.align, cell.bold}, y, style_.text_mm);
      y += style_.line_mm;
    }
  }
  y_ += static_cast<double>(lines_of(row)) * style_.line_mm;
}

void FilledPages::table(const Row& titles, std::span<const Row> rows) {
  bool begun = false;
  for (const Row& cells : rows) {
    const bool fits = has_room(lines_of(cells) + (begun ? 0 : 1));
    if (!fits) new_page();
    if (!begun || !fits) row(titles);
    begun = true;
    row(cells);
  }
}

}  // namespace versolay
