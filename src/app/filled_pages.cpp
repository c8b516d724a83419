#include "app/filled_pages.h"

#include "pdf/text_block.h"

namespace versolay {

FilledPages::FilledPages(const Paper& paper, const Style& style) : paper_(paper), style_(style) {
  new_page();
}

void FilledPages::new_page() {
  pages_.push_back({paper_, {}, {}, {}});
  y_ = -paper_.height_mm / 2 + style_.margin_mm + style_.line_mm;
}

void FilledPages::line(const std::string& utf8, double indent_mm, double size_mm, bool bold) {
  if (y_ > bottom()) new_page();
  Text text;
  text.at = {left() + indent_mm, y_};
  text.utf8 = utf8;
  text.size_mm = size_mm;
  text.bold = bold;
  drawing().push_back(text);
  y_ += style_.line_mm;
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

}  // namespace versolay
