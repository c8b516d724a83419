#include "report/report_pdf.h"

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

/// How far apart things are, as a multiple of what is usual.
using Looseness = double;

/// Pages that are filled from the top.
class Pages {
 public:
  Pages(const Paper& paper, Looseness looseness) : paper_(paper), looseness_(looseness) {
    turn_page();
  }

  double leading(double size_mm) const { return 1.42 * looseness_ * size_mm; }

  double left() const { return -paper_.width_mm / 2 + kPageMarginMm; }
  double width() const { return paper_.width_mm - 2 * kPageMarginMm; }
  double y() const { return y_; }
  /// White between things: more or less of it as the pages ask for.
  void gap(double mm) { y_ += looseness_ * mm; }
  /// What has been drawn below y.
  void advance(double mm) { y_ += mm; }
  std::size_t count() const { return pages_.size(); }
  /// Of the last page.
  double filled_share() const { return (y_ - top()) / (bottom() - top()); }
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
  Looseness looseness_;
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
  const double height = static_cast<double>(most) * pages.leading(kSmallMm) + 1.2;
  pages.keep_together(height);
  double x = pages.left();
  for (std::size_t i = 0; i < cells.size(); ++i) {
    for (std::size_t k = 0; k < cells[i].size(); ++k) {
      pages.draw(label({x, pages.y() + kSmallMm + static_cast<double>(k) * pages.leading(kSmallMm)},
                       cells[i][k], Align::left, head || i == 0, kSmallMm));
    }
    x += widths[i];
  }
  pages.advance(height);
  pages.draw(
      line({pages.left(), pages.y() - 0.6}, {x - kGapMm, pages.y() - 0.6}, head ? 0.3 : 0.1));
}

void add_table(Pages& pages, const Table& table) {
  if (table.rows.empty()) return;
  const std::vector<double> widths = column_widths(table, pages.width() + kGapMm);
  pages.keep_together(4 * pages.leading(kSmallMm));
  if (!table.caption.empty()) {
    pages.text(table.caption, pages.left(), pages.width(), kSmallMm);
    pages.gap(0.6);
  }
  add_row(pages, table.head, widths, true);
  for (const auto& row : table.rows) add_row(pages, row, widths, false);
  pages.gap(2.5);
}

/// One figure with its title and caption, `x` its left edge; or, not `drawn`, only its height.
double add_figure(Pages& pages, const Figure& f, double x, bool drawn) {
  const double top = pages.y();
  double y = top;
  const auto words = [&](const std::string& utf8, double size_mm, bool bold) {
    for (const std::string& line : wrapped(utf8, f.width_mm, size_mm, bold)) {
      if (drawn) pages.draw(label({x, y + size_mm}, line, Align::left, bold, size_mm));
      y += pages.leading(size_mm);
    }
  };
  words(f.title, kTextMm, true);
  y += 1.5;
  if (drawn) {
    for (const Layer& layer : f.layers) {
      for (const Shape& s : moved(layer.shapes, x + f.width_mm / 2, y + f.height_mm / 2)) {
        pages.draw(s);
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
    double height = add_figure(pages, figures[i], 0, false);
    if (pair) height = std::max(height, add_figure(pages, figures[i + 1], 0, false));
    pages.keep_together(height);
    add_figure(pages, figures[i], pages.left(), true);
    if (pair) {
      add_figure(pages, figures[i + 1], pages.left() + pages.width() - figures[i + 1].width_mm,
                 true);
    }
    pages.advance(height);
    pages.gap(5);
    i += pair ? 2 : 1;
  }
}

/// A paragraph with something at its left that says what kind it is.
void add_set_off(Pages& pages, const std::string& utf8, bool command) {
  constexpr double kInset = 4.0;
  const double width = command ? pages.width() - 2 * kInset : kLongestMm;
  const double height =
      static_cast<double>(wrapped(utf8, width, kTextMm).size()) * pages.leading(kTextMm);
  pages.keep_together(height + 3);
  const PageRect box{pages.left(), pages.y(), pages.left() + pages.width(), pages.y() + height + 2};
  if (command) {
    pages.draw(outlined(box, kThinMm));
  } else {
    pages.draw(filled({box.left_mm, box.top_mm, box.left_mm + 1.0, box.bottom_mm}, 1.0));
  }
  pages.advance(1.2);
  pages.text(utf8, pages.left() + kInset, width, kTextMm);
  pages.advance(0.8);
  pages.gap(2.2);
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

Pages pages_of(const ReportDocument& document, const Paper& paper, Looseness looseness) {
  Pages pages(paper, looseness);
  pages.text(document.title, pages.left(), pages.width(), kTitleMm, true);
  pages.text(document.subtitle, pages.left(), pages.width(), kTextMm);
  for (const Section& section : document.sections) {
    add_heading(pages, section.heading);
    for (const Block& block : section.blocks) std::visit(PdfBlockWriter{pages}, block);
  }
  add_numbers(pages, document);
  pages.gap(2);
  pages.text(document.colophon, pages.left(), pages.width(), kSmallMm);
  return pages;
}

/// A last page with a few lines looks like a mistake: a little closer they fit on the page before
/// it, or a little further apart they fill it.
Pages well_filled_pages(const ReportDocument& document, const Paper& paper) {
  constexpr double kLeastFilled = 0.27;
  Pages best = pages_of(document, paper, 1.0);
  for (const Looseness looseness : {0.97, 0.94, 1.03, 0.91, 1.06, 0.88, 1.09, 1.12, 1.15}) {
    if (best.count() == 1 || best.filled_share() >= kLeastFilled) break;
    Pages other = pages_of(document, paper, looseness);
    if (other.count() == 1 || other.filled_share() > best.filled_share()) best = std::move(other);
  }
  return best;
}

}  // namespace

PdfDocument pdf_of(const ReportDocument& document, const Paper& paper) {
  expect(paper.width_mm >= 200);
  PdfDocument pdf;
  pdf.title = document.title;
  pdf.pages = well_filled_pages(document, paper).take();
  return pdf;
}

}  // namespace versolay
