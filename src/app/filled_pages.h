// Pages of words that are filled from the top, as many as it takes.
#pragma once

#include <string>
#include <vector>

#include "core/drawing.h"
#include "pdf/pdf_document.h"
#include "versolay/paper.h"

namespace versolay {

class FilledPages {
 public:
  struct Style {
    double margin_mm = 18.0;
    double text_mm = 3.6;  // height of the em square
    double line_mm = 6.0;  // from line to line
  };
  FilledPages(const Paper& paper, const Style& style);

  /// A line, or several, from margin to margin.
  void paragraph(const std::string& utf8, bool bold = false);
  void title(const std::string& utf8, double size_mm);
  /// A box to tick, and what it is for; wrapped beside the box.
  void tick_box(const std::string& utf8);
  void gap(double lines = 0.5) { y_ += lines * style_.line_mm; }
  /// Room for a picture of this height. @return the middle of its upper edge.
  Point<PageMm> picture(double height_mm);

  double width_mm() const { return paper_.width_mm - 2 * style_.margin_mm; }
  Drawing& drawing() { return pages_.back().drawing; }
  std::vector<PdfPage> take() { return std::move(pages_); }

 private:
  double left() const { return -paper_.width_mm / 2 + style_.margin_mm; }
  double bottom() const { return paper_.height_mm / 2 - style_.margin_mm; }
  void new_page();
  void line(const std::string& utf8, double indent_mm, double size_mm, bool bold);

  Paper paper_;
  Style style_;
  std::vector<PdfPage> pages_;
  double y_ = 0.0;  // base line of the next line
};

}  // namespace versolay
