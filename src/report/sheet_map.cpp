#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "report/figure_parts.h"
#include "report/figures.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kDarkest = 0.3;       // ink of the worst cell: words on it stay readable
constexpr double kAlikePercent = 0.5;  // a smaller difference is not worth a word

double bad_percent(const CellAdvice& c) { return std::max(0.0, 100 - c.good_percent); }

std::string bad_words(const CellAdvice& c) {
  const double bad = bad_percent(c);
  if (bad < 0.05) return "< 0.1 %";
  return format_fixed(bad, bad < 9.95 ? 1 : 0) + " %";
}

std::string cell_words(const CellAdvice& c) {
  return tr("row {}, column {}", c.row + 1, c.column + 1);
}

}  // namespace

Figure sheet_map(const Advice& advice, const Paper& paper) {
  const CardGrid& grid = advice.request.grid;
  Figure f;
  f.id = "sheet-map";
  f.title = tr("Which places on the sheet are risky");
  constexpr double kTop = 5.5;
  const double scale = std::min((kFigureWidthMm - 12) / paper.width_mm, 104.0 / paper.height_mm);
  const Point<PageMm> centre{0, kTop + scale * paper.height_mm / 2};
  Drawing& frame = layer(f, Role::frame);
  frame.push_back(label({0, 3.5}, tr("top edge of the front")));
  frame.push_back(
      outlined(rect_about(centre, scale * paper.width_mm, scale * paper.height_mm), kThinMm));

  const auto [best, worst] = std::minmax_element(
      advice.cells.begin(), advice.cells.end(),
      [](const auto& a, const auto& b) { return bad_percent(a) < bad_percent(b); });
  const bool alike = bad_percent(*worst) - bad_percent(*best) < kAlikePercent;
  const double most = std::max(bad_percent(*worst), 1e-9);
  const double size = std::min(5.0, scale * grid.card.width_mm / 4.2);
  for (std::size_t i = 0; i < advice.cells.size(); ++i) {
    const CellAdvice& c = advice.cells[i];
    const Point<RectoMm>& at = grid.cells[i].centre;
    const Point<PageMm> middle{centre.x + scale * at.x, centre.y + scale * at.y};
    const auto card = [&](double less_mm) {
      return rect_about(middle, scale * grid.card.width_mm - less_mm,
                        scale * grid.card.height_mm - less_mm);
    };
    const bool is_worst = !alike && &c == &*worst;
    layer(f, Role::before)
        .push_back(filled(card(0), std::max(0.01, kDarkest * bad_percent(c) / most)));
    layer(f, Role::frame).push_back(outlined(card(0), kThinMm));
    if (is_worst) layer(f, Role::frame).push_back(outlined(card(1.2), 0.7));
    layer(f, Role::frame)
        .push_back(
            label({middle.x, middle.y + 0.35 * size}, bad_words(c), Align::centre, is_worst, size));
    f.numbers.rows.push_back({cell_words(c), bad_words(c)});
  }
  f.numbers.caption = tr("Cards that show a sliver, place by place, seen from the front.");
  f.numbers.head = {tr("place"), tr("cards with a sliver")};
  f.alt = tr("The front of a sheet with {} cards. ", advice.cells.size()) +
          (alike ? tr("At every place about {} of the cards will show a sliver.", bad_words(*worst))
                 : tr("The riskiest place is {}, where {} of the cards will show a sliver.",
                      cell_words(*worst), bad_words(*worst)));
  f.caption =
      tr("Share of the cards printed at each place that will show a sliver at the advised "
         "oversize, seen from the front. {}",
         alike ? std::string(tr("All places are about the same."))
               : tr("The darker the shade, the more; the thick line marks the worst: {}.",
                    cell_words(*worst)));
  return finished(std::move(f), kTop + scale * paper.height_mm + 1);
}

}  // namespace versolay
