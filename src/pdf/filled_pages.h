// Pages of text, filled from the top, as many as needed.
#pragma once

#include <span>
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
  /// A title within the page, which stays with the lines that follow it.
  void heading(const std::string& utf8);
  /// A box to tick, and what it is for; wrapped beside the box.
  void tick_box(const std::string& utf8);
  void gap(double lines = 0.5) { y_ += lines * style_.line_mm; }
  /// Room for a picture of this height. @return the middle of its upper edge.
  Point<PageMm> picture(double height_mm);

  /// A cell of a table: its words begin, end or are centred at `x_mm` from the left margin.
  struct Cell {
    double x_mm = 0.0;
    std::string utf8;
    Align align = Align::left;
    bool bold = false;
    double width_mm = 0.0;  // words are wrapped to it; 0: one line
  };
  using Row = std::vector<Cell>;
  /// Rows are not split across pages; the titles are repeated on every page.
  void table(const Row& titles, std::span<const Row> rows);

  double width_mm() const { return paper_.width_mm - 2 * style_.margin_mm; }
  Drawing& drawing() { return pages_.back().drawing; }
  std::vector<PdfPage> take() { return std::move(pages_); }

 private:
  double left() const { return -paper_.width_mm / 2 + style_.margin_mm; }
  double bottom() const { return paper_.height_mm / 2 - style_.margin_mm; }
  bool has_room(std::size_t lines) const;
  void new_page();
  void text(const Cell& cell, double y_mm, double size_mm);
  void line(const std::string& utf8, double indent_mm, double size_mm, bool bold);
  std::size_t lines_of(const Row& row) const;
  void row(const Row& row);

  Paper paper_;
  Style style_;
  std::vector<PdfPage> pages_;
  double y_ = 0.0;  // base line of the next line
};

}  // namespace versolay
