#include "report/pdf_pages.h"

#include <algorithm>
#include <numeric>

#include "core/expect.h"
#include "pdf/fonts.h"
#include "pdf/text_block.h"
#include "report/shapes.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kPageMarginMm = 15.0;
constexpr double kTextMm = 3.3;
constexpr double kSmallMm = 2.9;
constexpr double kLeadMm = 4.1;
constexpr double kPromiseMm = 3.8;
constexpr double kHeadingMm = 4.8;
constexpr double kTitleMm = 6.5;
constexpr double kGapMm = 4.0;        // between the columns
constexpr double kLongestMm = 130.0;  // a line of text that can still be read with ease

double leading(double size_mm) { return 1.42 * size_mm; }

/// Pages that are filled from the top.
class Pages {
 public:
  explicit Pages(const Paper& paper) : paper_(paper) { turn_page(); }

  double left() const { return -paper_.width_mm / 2 + kPageMarginMm; }
  double width() const { return paper_.width_mm - 2 * kPageMarginMm; }
  double y() const { return y_; }
  void gap(double mm) { y_ += mm; }
  void keep_together(double height_mm) {
    if (y_ + height_mm > bottom() && y_ > top()) turn_page();
  }
  void draw(const Shape& shape) { pages_.back().drawing.push_back(shape); }

  /// Lines of text from x on. The base line of the first is one em below y.
  void text(const std::string& utf8, double x, double width_mm, double size_mm, bool bold = false) {
    for (const std::string& line : wrapped(utf8, width_mm, size_mm, bold)) {
      keep_together(leading(size_mm));
      draw(label({x, y_ + size_mm}, line, Align::left, bold, size_mm));
      y_ += leading(size_mm);
    }
  }

  std::vector<PdfPage> take() {
    for (std::size_t i = 0; i < pages_.size(); ++i) {
      pages_[i].drawing.push_back(
          label({paper_.width_mm / 2 - kPageMarginMm, bottom() + 6.0},
                std::to_string(i + 1) + " / " + std::to_string(pages_.size()), Align::right, false,
                kSmallMm));
    }
    return std::move(pages_);
  }

 private:
  double top() const { return -paper_.height_mm / 2 + kPageMarginMm; }
  double bottom() const { return paper_.height_mm / 2 - kPageMarginMm; }
  void turn_page() {
    pages_.push_back({paper_, {}, {}, {}});
    y_ = top();
  }

  Paper paper_;
  std::vector<PdfPage> pages_;
  double y_ = 0.0;
};

/// Widths of the columns: as wide as their words, and what is too wide shares what is left.
std::vector<double> column_widths(const Table& table, double width_mm) {
  std::vector<double> wanted(table.head.size(), 0.0);
  const auto look_at = [&](const std::vector<std::string>& row, bool bold) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      wanted[i] = std::max(wanted[i], text_width_mm(row[i], kSmallMm, bold || i == 0) + kGapMm);
    }
  };
  look_at(table.head, true);
  for (const auto& row : table.rows) look_at(row, false);
  const double fair = width_mm / static_cast<double>(wanted.size());
  double narrow = 0.0;
  double wide = 0.0;
  for (double w : wanted) (w <= fair ? narrow : wide) += w;
  if (narrow + wide <= width_mm) return wanted;
  for (double& w : wanted) {
    if (w > fair) w *= (width_mm - narrow) / wide;
  }
  return wanted;
}

void add_row(Pages& pages, const std::vector<std::string>& row, const std::vector<double>& widths,
             bool head) {
  std::vector<std::vector<std::string>> cells;
  std::size_t most = 1;
  for (std::size_t i = 0; i < row.size(); ++i) {
    cells.push_back(wrapped(row[i], widths[i] - kGapMm + 0.01, kSmallMm, head || i == 0));
    most = std::max(most, cells.back().size());
  }
  const double height = static_cast<double>(most) * leading(kSmallMm) + 1.2;
  pages.keep_together(height);
  double x = pages.left();
  for (std::size_t i = 0; i < cells.size(); ++i) {
    for (std::size_t k = 0; k < cells[i].size(); ++k) {
      pages.draw(label({x, pages.y() + kSmallMm + static_cast<double>(k) * leading(kSmallMm)},
                       cells[i][k], Align::left, head || i == 0, kSmallMm));
    }
    x += widths[i];
  }
  pages.gap(height);
  pages.draw(
      line({pages.left(), pages.y() - 0.6}, {x - kGapMm, pages.y() - 0.6}, head ? 0.3 : 0.1));
}

void add_table(Pages& pages, const Table& table) {
  if (table.rows.empty()) return;
  const std::vector<double> widths = column_widths(table, pages.width() + kGapMm);
  pages.keep_together(4 * leading(kSmallMm));
  if (!table.caption.empty()) {
    pages.text(table.caption, pages.left(), pages.width(), kSmallMm);
    pages.gap(0.6);
  }
  add_row(pages, table.head, widths, true);
  for (const auto& row : table.rows) add_row(pages, row, widths, false);
  pages.gap(2.5);
}

/// One figure with its title and caption, `x` its left edge; or only its height.
double add_figure(Pages* pages, const Figure& f, double x) {
  const double top = pages ? pages->y() : 0.0;
  double y = top;
  const auto words = [&](const std::string& utf8, double size_mm, bool bold) {
    for (const std::string& line : wrapped(utf8, f.width_mm, size_mm, bold)) {
      if (pages) pages->draw(label({x, y + size_mm}, line, Align::left, bold, size_mm));
      y += leading(size_mm);
    }
  };
  words(f.title, kTextMm, true);
  y += 1.5;
  if (pages) {
    for (const Layer& layer : f.layers) {
      for (const Shape& s : moved(layer.shapes, x + f.width_mm / 2, y + f.height_mm / 2)) {
        pages->draw(s);
      }
    }
  }
  y += f.height_mm + 1.5;
  words(f.caption, kSmallMm, false);
  return y - top;
}

void add_figures(Pages& pages, const std::vector<Figure>& figures) {
  for (std::size_t i = 0; i < figures.size();) {
    const bool pair =
        i + 1 < figures.size() &&
        figures[i].width_mm + figures[i + 1].width_mm + kGapMm <= pages.width() + 1e-6;
    double height = add_figure(nullptr, figures[i], 0);
    if (pair) height = std::max(height, add_figure(nullptr, figures[i + 1], 0));
    pages.keep_together(height);
    add_figure(&pages, figures[i], pages.left());
    if (pair) {
      add_figure(&pages, figures[i + 1], pages.left() + pages.width() - figures[i + 1].width_mm);
    }
    pages.gap(height + 5);
    i += pair ? 2 : 1;
  }
}

/// A paragraph with something at its left that says what kind it is.
void add_set_off(Pages& pages, const std::string& utf8, bool command) {
  constexpr double kInset = 4.0;
  const double width = command ? pages.width() - 2 * kInset : kLongestMm;
  const double height =
      static_cast<double>(wrapped(utf8, width, kTextMm).size()) * leading(kTextMm);
  pages.keep_together(height + 3);
  const PageRect box{pages.left(), pages.y(), pages.left() + pages.width(), pages.y() + height + 2};
  if (command) {
    pages.draw(outlined(box, kThinMm));
  } else {
    pages.draw(filled({box.left_mm, box.top_mm, box.left_mm + 1.0, box.bottom_mm}, 1.0));
  }
  pages.gap(1.2);
  pages.text(utf8, pages.left() + kInset, width, kTextMm);
  pages.gap(3.0);
}

struct PdfBlockWriter {
  Pages& pages;

  void operator()(const Paragraph& p) const {
    switch (p.tone) {
      case Tone::plain:
        pages.text(p.text, pages.left(), kLongestMm, kTextMm);
        pages.gap(1.8);
        return;
      case Tone::lead:
        pages.text(p.text, pages.left(), pages.width(), kLeadMm, true);
        pages.gap(2.2);
        return;
      case Tone::promise:
        pages.text(p.text, pages.left(), pages.width(), kPromiseMm);
        pages.gap(2.2);
        return;
      case Tone::caution:
        return add_set_off(pages, tr("Caution. {}", p.text), false);
      case Tone::command:
        return add_set_off(pages, p.text, true);
    }
  }
  void operator()(const Table& t) const { add_table(pages, t); }
  void operator()(const Figures& f) const { add_figures(pages, f.list); }
  void operator()(const WhatIfTable& w) const { add_table(pages, w.table); }
};

void add_heading(Pages& pages, const std::string& words) {
  pages.gap(4);
  pages.keep_together(30);
  pages.text(words, pages.left(), pages.width(), kHeadingMm, true);
  pages.gap(1.5);
}

void add_numbers(Pages& pages, const ReportDocument& document) {
  add_heading(pages, tr("The numbers of the figures"));
  for (const Section& section : document.sections) {
    for (const Block& block : section.blocks) {
      const auto* figures = std::get_if<Figures>(&block);
      if (!figures) continue;
      for (const Figure& f : figures->list) {
        if (f.numbers.rows.empty()) continue;
        pages.keep_together(25);
        pages.text(f.title, pages.left(), pages.width(), kTextMm, true);
        pages.gap(0.6);
        add_table(pages, f.numbers);
      }
    }
  }
}

}  // namespace

PdfDocument pdf_of(const ReportDocument& document, const Paper& paper) {
  expect(paper.width_mm >= 200);
  Pages pages(paper);
  pages.text(document.title, pages.left(), pages.width(), kTitleMm, true);
  pages.text(document.subtitle, pages.left(), pages.width(), kTextMm);
  for (const Section& section : document.sections) {
    add_heading(pages, section.heading);
    for (const Block& block : section.blocks) std::visit(PdfBlockWriter{pages}, block);
  }
  add_numbers(pages, document);
  pages.gap(2);
  pages.text(document.colophon, pages.left(), pages.width(), kSmallMm);
  PdfDocument pdf;
  pdf.title = document.title;
  pdf.pages = pages.take();
  return pdf;
}

}  // namespace versolay
