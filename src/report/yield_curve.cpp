#include <algorithm>

#include "core/numbers.h"
#include "report/figure_parts.h"
#include "report/figures.h"
#include "report/plot.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

std::string good_words(const ExpectedGood& e) {
  return tr("{} of {} ({} to {})", format_fixed(e.cards_per_sheet, 2), e.cells,
            format_fixed(e.low, 2), format_fixed(e.high, 2));
}

std::string oversize_on_curve(const Oversize& o) {
  if (o.x_mm == 0 && o.y_mm == 0) return tr("none");
  return o.x_px == o.y_px
             ? oversize_length_words(o.x_mm, o.x_px)
             : tr("{} left and right, {} top and bottom", oversize_length_words(o.x_mm, o.x_px),
                  oversize_length_words(o.y_mm, o.y_px));
}

Drawing square_mark(bool is_filled) {
  Drawing drawing;
  add_square(drawing, {0, 0}, is_filled);
  return drawing;
}

/// Where the enlargement of today is: a dotted line, with a square for what it is worth.
void mark_today(Figure& f, const Plot& plot, const Advice& advice) {
  const HandMethod& today = *advice.by_hand;
  const double side_mm = today.total_mm / 2;
  const Point<PageMm> foot = plot.at(side_mm, 0);
  layer(f, Role::frame)
      .push_back(line({foot.x, plot.area().top_mm}, {foot.x, foot.y}, kThinMm, 0.6));
  layer(f, Role::frame).push_back(label({foot.x, plot.area().top_mm - 1}, tr("today")));
  add_square(layer(f, Role::before), plot.at(side_mm, today.as_printed.cards_per_sheet), false);
  if (advice.shift_advised()) {
    add_square(layer(f, Role::after), plot.at(side_mm, today.moved.cards_per_sheet), true);
  }
}

}  // namespace

Figure yield_curve(const Advice& advice) {
  const double widest = std::max(advice.curve.back().oversize.x_mm,
                                 advice.by_hand ? advice.by_hand->total_mm / 2 : 0.0);
  const Plot plot({-30, 5, 41, 61}, {0, 1.04 * widest}, {0, 1.0 * advice.expected_good.cells},
                  false);
  Figure f;
  f.id = "yield";
  f.title = tr("Good cards on a sheet, by how much larger the back is");
  f.scale = plot.scale();
  f.numbers = {
      tr("Cards without a sliver on a sheet, on average; in brackets the 90 % credible range."),
      {tr("beyond the card on each side"), tr("good cards of a sheet")},
      {}};

  Polygon band{{}, {0.15}};
  Polyline curve{{}, 0.6, false, 0.0, {}};
  for (const YieldPoint& p : advice.curve) {
    band.corners.push_back(plot.at(p.oversize.x_mm, p.good.high));
    curve.points.push_back(plot.at(p.oversize.x_mm, p.good.cards_per_sheet));
    if (!p.in_tables) continue;
    f.numbers.rows.push_back(
        {oversize_on_curve(p.oversize) + (p.share_of_advised == 1.0 ? tr(", as advised") : ""),
         good_words(p.good)});
  }
  for (auto p = advice.curve.rbegin(); p != advice.curve.rend(); ++p) {
    band.corners.push_back(plot.at(p->oversize.x_mm, p->good.low));
  }
  layer(f, Role::after).push_back(band);
  layer(f, Role::frame) =
      plot.axes(ticks_of({0, 1.04 * widest}, 5), ticks_of({0, 1.0 * advice.expected_good.cells}, 5),
                tr("mm beyond the card on each side"), tr("good cards of a sheet"));
  if (advice.by_hand) mark_today(f, plot, advice);
  layer(f, Role::after).push_back(curve);
  const Point<PageMm> advised = plot.at(advice.oversize.x_mm, advice.expected_good.cards_per_sheet);
  layer(f, Role::mark).push_back(line({advised.x, plot.area().bottom_mm}, advised, 0.7));
  layer(f, Role::mark).push_back(Disc{advised, 1.5, 0.0, {}});
  Drawing dot;
  dot.push_back(Disc{{0, 0}, 1.5, 0.0, {}});
  std::vector<LegendEntry> legend = {
      {Role::mark, dot, tr("as advised: {}", distance_words_up(advice.oversize.x_mm))}};
  if (advice.by_hand) {
    const HandMethod& today = *advice.by_hand;
    const std::string side = distance_words(today.total_mm / 2);
    f.numbers.rows.push_back({tr("{}, as today", side), good_words(today.as_printed)});
    legend.push_back({Role::before, square_mark(false), tr("as today, back left where it is")});
    if (advice.shift_advised()) {
      f.numbers.rows.push_back(
          {tr("{}, as today, back moved as advised", side), good_words(today.moved)});
      legend.push_back({Role::after, square_mark(true), tr("as today, back moved as advised")});
    }
  }
  const double bottom = add_legend(f, 72.5, legend);
  f.alt =
      tr("A curve that rises from {} to {} good cards of {} as the back becomes larger; at the "
         "advised {} it is {}.",
         format_fixed(advice.curve.front().good.cards_per_sheet, 1),
         format_fixed(advice.curve.back().good.cards_per_sheet, 1), advice.expected_good.cells,
         distance_words_up(advice.oversize.x_mm),
         format_fixed(advice.expected_good.cards_per_sheet, 2));
  f.caption = tr("The line is the average, the shaded band its 90 % credible range.");
  return finished(std::move(f), bottom);
}

}  // namespace versolay
