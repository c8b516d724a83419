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

/// Where the common settings are: a dotted line each, its pixels above the plot.
void mark_hand_settings(Figure& f, const Plot& plot, const Advice& advice) {
  for (const HandMethod& h : advice.by_hand) {
    const Point<PageMm> foot = plot.at(h.side_mm, 0);
    layer(f, Role::frame)
        .push_back(line({foot.x, plot.area().top_mm}, {foot.x, foot.y}, kThinMm, 0.6));
    layer(f, Role::frame)
        .push_back(label({foot.x, plot.area().top_mm - 1}, std::to_string(h.total_px_at_300)));
  }
  for (const HandMethod& h : advice.by_hand) {
    add_square(layer(f, Role::before), plot.at(h.side_mm, h.as_printed.cards_per_sheet), false);
    if (advice.shift_advised()) {
      add_square(layer(f, Role::after), plot.at(h.side_mm, h.moved.cards_per_sheet), true);
    }
  }
}

}  // namespace

Figure yield_curve(const Advice& advice) {
  const double widest = std::max(advice.curve.back().oversize.x_mm, advice.by_hand.back().side_mm);
  const Plot plot({-30, 5, 41, 61}, {0, 1.04 * widest}, {0, 1.0 * advice.expected_good.cells},
                  false);
  Figure f;
  f.id = "yield";
  f.title = tr("Good cards on a sheet, by how much larger the back is");
  f.scale = plot.scale();
  f.numbers = {
      tr("Cards without a sliver on a sheet, on average; in brackets where that may be (90 %)."),
      {tr("beyond the card on each side"), tr("good cards of a sheet")},
      {}};

  Polygon band{{}, {0.15}};
  Polyline curve{{}, 0.6, false, 0.0, {}};
  for (const YieldPoint& p : advice.curve) {
    band.corners.push_back(plot.at(p.oversize.x_mm, p.good.high));
    curve.points.push_back(plot.at(p.oversize.x_mm, p.good.cards_per_sheet));
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
  mark_hand_settings(f, plot, advice);
  layer(f, Role::after).push_back(curve);
  const Point<PageMm> advised = plot.at(advice.oversize.x_mm, advice.expected_good.cards_per_sheet);
  layer(f, Role::mark).push_back(line({advised.x, plot.area().bottom_mm}, advised, 0.7));
  layer(f, Role::mark).push_back(Disc{advised, 1.5, 0.0, {}});
  for (const HandMethod& h : advice.by_hand) {
    f.numbers.rows.push_back({tr("{} ({} px in all at 300 ppi), by hand, back not moved",
                                 distance_words(h.side_mm), h.total_px_at_300),
                              good_words(h.as_printed)});
    if (advice.shift_advised()) {
      f.numbers.rows.push_back({tr("{} ({} px in all at 300 ppi), by hand, back moved",
                                   distance_words(h.side_mm), h.total_px_at_300),
                                good_words(h.moved)});
    }
  }
  Drawing dot;
  dot.push_back(Disc{{0, 0}, 1.5, 0.0, {}});
  std::vector<LegendEntry> legend = {
      {Role::mark, dot, tr("as advised: {}", distance_words_up(advice.oversize.x_mm))},
      {Role::frame, {line({0, -1.4}, {0, 1.4}, kThinMm, 0.6)}, tr("by hand: px in all at 300 ppi")},
      {Role::before, square_mark(false), tr("by hand, back left where it is")}};
  if (advice.shift_advised()) {
    legend.push_back({Role::after, square_mark(true), tr("by hand, back moved as advised")});
  }
  const double bottom = add_legend(f, 72.5, legend);
  f.alt =
      tr("A curve that rises from {} to {} good cards of {} as the back becomes larger; at the "
         "advised {} it stands at {}.",
         format_fixed(advice.curve.front().good.cards_per_sheet, 1),
         format_fixed(advice.curve.back().good.cards_per_sheet, 1), advice.expected_good.cells,
         distance_words_up(advice.oversize.x_mm),
         format_fixed(advice.expected_good.cards_per_sheet, 2));
  f.caption =
      tr("The line is the average, the shade about it where it may be (90 %). By hand: the usual "
         "enlargements, 10, 16 and 20 px in all (common practice).");
  return finished(std::move(f), bottom);
}

}  // namespace versolay
