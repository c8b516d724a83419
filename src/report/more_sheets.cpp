#include <algorithm>

#include "core/numbers.h"
#include "report/figure_parts.h"
#include "report/figures.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {

Figure more_sheets(const Advice& advice, const PrinterProfile& profile) {
  struct Bar {
    std::string words;
    const Oversize* oversize;
  };
  std::vector<Bar> bars = {{tr("now, from {} sheets", profile.mean_feeds), &advice.oversize}};
  for (const Saving& s : advice.savings) {
    bars.push_back({trn("with {} more sheet", "with {} more sheets", s.sheets), &s.oversize});
  }
  Figure f;
  f.id = "more-sheets";
  f.title = tr("What more target sheets would gain");
  f.numbers = {
      tr("Expected oversize on the left and on the right."), {tr("sheets"), tr("oversize")}, {}};
  constexpr double kLeft = -kFigureWidthMm / 2 + 1;
  constexpr double kBarMm = 5.0;
  const double widest = kFigureWidthMm - 2;
  double y = 0.0;
  for (const Bar& bar : bars) {
    const std::string size = oversize_length_words(bar.oversize->x_mm, bar.oversize->x_px);
    layer(f, Role::frame)
        .push_back(label({kLeft, y + 4.2}, bar.words + ": " + size, Align::left,
                         bar.oversize == &advice.oversize));
    y += 5.5;
    const PageRect rect{kLeft, y, kLeft + widest * bar.oversize->x_mm / advice.oversize.x_mm,
                        y + kBarMm};
    layer(f, Role::after).push_back(filled(rect, bar.oversize == &advice.oversize ? 0.55 : 0.25));
    layer(f, Role::frame).push_back(outlined(rect, kThinMm));
    y += kBarMm + 2.0;
    f.numbers.rows.push_back({bar.words, size});
  }
  f.alt = tr("Bars: the oversize is {} now and would be about {} with {} more sheets.",
             distance_words_up(advice.oversize.x_mm), distance_words_up(bars.back().oversize->x_mm),
             advice.savings.back().sheets);
  f.caption =
      tr("More sheets do not make the printer better. They show more exactly how it behaves, so "
         "less has to be added for what is not known. Expected values, not promises.");
  return finished(std::move(f), y);
}

}  // namespace versolay
