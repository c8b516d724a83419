#include "report/figure_parts.h"
#include "report/figures.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr double kLongMm = 42.0;

void add_directions(Drawing& drawing, const Point<PageMm>& middle, double reach) {
  const auto to = [&](double x, double y) {
    add_arrow(drawing, middle, {middle.x + x, middle.y + y}, 0.3, 1.8);
  };
  to(reach, 0);
  to(-reach, 0);
  to(0, reach);
  to(0, -reach);
  drawing.push_back(label({middle.x, middle.y - reach - 1.2}, tr("up")));
  drawing.push_back(label({middle.x, middle.y + reach + 3.6}, tr("down")));
  drawing.push_back(label({middle.x + reach + 0.8, middle.y - 1.6}, tr("right")));
  drawing.push_back(label({middle.x - reach - 0.8, middle.y - 1.6}, tr("left")));
}

}  // namespace

Figure turn_diagram(Turn turn, const Paper& paper) {
  const bool vertical = turn_axis(turn, paper) == TurnAxis::vertical;
  const double scale = kLongMm / std::max(paper.width_mm, paper.height_mm);
  const double width = std::min(scale * paper.width_mm, 34.0);
  const double height = width * paper.height_mm / paper.width_mm;
  constexpr double kTop = 7.0;
  const double y = kTop + height / 2;
  const Point<PageMm> front{-25, y};
  const Point<PageMm> back{25, y};
  Figure f;
  f.id = "turn";
  f.title = tr("How the sheet is turned, and what left and right mean");
  Drawing& d = layer(f, Role::frame);
  for (const auto& [at, words] : {std::pair{front, tr("front")}, std::pair{back, tr("back")}}) {
    d.push_back(label({at.x, 4.5}, words, Align::centre, true));
    d.push_back(outlined(rect_about(at, width, height), kLineMm));
  }
  // The same corner of the paper on both sides: the upper left one of the front.
  const Point<PageMm> corner{front.x - width / 2 + 3, front.y - height / 2 + 3};
  const Point<PageMm> same{back.x + (vertical ? 1 : -1) * (width / 2 - 3),
                           back.y + (vertical ? -1 : 1) * (height / 2 - 3)};
  for (const auto& at : {corner, same}) add_dot(layer(f, Role::mark), at);
  add_directions(layer(f, Role::frame), back, width / 4);
  Drawing& axis = layer(f, Role::frame);
  if (vertical) {
    axis.push_back(line({front.x, y - height / 2 - 1}, {front.x, y + height / 2 + 2}, 0.3, 1.2));
  } else {
    axis.push_back(line({front.x - width / 2 - 2, y}, {front.x + width / 2 + 2, y}, 0.3, 1.2));
  }
  add_arrow(layer(f, Role::after), {-5, y}, {5, y}, 0.8, 3.5);
  axis.push_back(label({0, y - 2.5}, tr("turn")));
  const char* how = vertical ? tr("about the dashed line, like the page of a book")
                             : tr("about the dashed line, over its top edge");
  const double foot = kTop + height + 6;
  layer(f, Role::frame).push_back(label({0, foot}, how));
  f.alt =
      tr("Front and back of a sheet side by side. The sheet is turned {}; the corner that is at "
         "the top left of the front is then at the {} of the back.",
         how, vertical ? tr("top right") : tr("bottom left"));
  f.caption =
      tr("The dot marks the same corner of the paper on both sides. All directions in this report "
         "are as seen from the back.");
  return finished(std::move(f), foot + 2);
}

}  // namespace versolay
