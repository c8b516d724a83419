#include <algorithm>

#include "core/numbers.h"
#include "report/figure_parts.h"
#include "report/figures.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

/// The region between two rectangles, as four that do not overlap.
void add_frame(Drawing& drawing, const PageRect& outer, const PageRect& inner, double ink) {
  drawing.push_back(filled({outer.left_mm, outer.top_mm, outer.right_mm, inner.top_mm}, ink));
  drawing.push_back(filled({outer.left_mm, inner.bottom_mm, outer.right_mm, outer.bottom_mm}, ink));
  drawing.push_back(filled({outer.left_mm, inner.top_mm, inner.left_mm, inner.bottom_mm}, ink));
  drawing.push_back(filled({inner.right_mm, inner.top_mm, outer.right_mm, inner.bottom_mm}, ink));
}

/// The band about the inner edge of the border: darker where it lies on half of the cards.
void add_border_band(Drawing& drawing, const PageRect& card, const Centring& c) {
  const PageRect edge = card.grown(-c.border_mm, -c.border_mm);
  const auto out = [&](double off) {
    const double reach = std::min(off, c.border_mm);
    return edge.grown(reach, reach);
  };
  const double most_inward = std::min(edge.width_mm(), edge.height_mm()) / 2;
  const auto in = [&](double off) {
    const double reach = std::min(off, most_inward);
    return edge.grown(-reach, -reach);
  };
  add_frame(drawing, out(c.worst_off_mm), out(c.typical_off_mm), 0.18);
  add_frame(drawing, out(c.typical_off_mm), in(c.typical_off_mm), 0.45);
  add_frame(drawing, in(c.typical_off_mm), in(c.worst_off_mm), 0.18);
  drawing.push_back(outlined(edge, kThinMm));
}

void add_ruler(Drawing& drawing, double y) {
  constexpr double kLengthMm = 50.0;
  drawing.push_back(line({-kLengthMm / 2, y}, {kLengthMm / 2, y}, kThinMm));
  for (int i = 0; i <= 5; ++i) {
    const double x = -kLengthMm / 2 + 10 * i;
    drawing.push_back(line({x, y - 1.5}, {x, y}, kThinMm));
  }
  drawing.push_back(label({0, y + 4.0}, tr("50 mm, if this is life-size")));
}

std::string oversize_words(const Oversize& o) {
  if (o.x_px == o.y_px) return tr("{} on each side", distance_words_up(o.x_mm));
  return tr("{} left and right, {} at top and bottom", distance_words_up(o.x_mm),
            distance_words_up(o.y_mm));
}

}  // namespace

Figure card_back(const Advice& advice) {
  const CardSize& size = advice.request.grid.card;
  const Oversize& o = advice.oversize;
  Figure f;
  f.id = "card-back";
  f.title = tr("A card back, life-size");
  f.life_size = true;
  f.width_mm = std::max(kFigureWidthMm, size.width_mm + 2 * o.x_mm + 6);
  const double top = 2 + o.y_mm;
  const Point<PageMm> centre{0, top + size.height_mm / 2};
  const PageRect card = rect_about(centre, size.width_mm, size.height_mm);
  const PageRect image = card.grown(o.x_mm, o.y_mm);

  Drawing& beyond = layer(f, Role::after);
  add_frame(beyond, image, card, 0.12);
  beyond.push_back(outlined(image, 0.3, 1.0));
  if (advice.centring) add_border_band(layer(f, Role::before), card, *advice.centring);
  Drawing& frame = layer(f, Role::frame);
  frame.push_back(outlined(card, kLineMm));
  const double line_mm = 5.0;
  double y = centre.y - line_mm;
  for (const std::string& words :
       {std::string(tr("solid line: the cut")), std::string(tr("dashed line: print the back")),
        std::string(tr("at least up to here"))}) {
    frame.push_back(label({0, y}, words));
    y += line_mm;
  }
  if (advice.centring) {
    frame.push_back(label({0, y}, tr("shaded: where the border ends")));
  }
  add_ruler(frame, image.bottom_mm + 5);

  f.alt = tr("The outline of a card of {} x {} mm with the back image reaching beyond it: {}.",
             format_number(size.width_mm, 2), format_number(size.height_mm, 2), oversize_words(o));
  if (advice.centring) {
    const Centring& c = *advice.centring;
    f.caption =
        tr("The border was meant to be {} mm wide. On half of the cards its inner edge lies in the "
           "dark band (up to {} off), on {} % in the whole band (up to {} off, {} % sure).",
           format_number(c.border_mm, 2), distance_words(c.typical_off_mm),
           format_number(100 * advice.request.coverage, 1), distance_words(c.worst_off_mm),
           format_number(100 * advice.request.confidence, 1));
    f.alt += tr(" A band shows where the inner edge of a border of {} mm will lie.",
                format_number(c.border_mm, 2));
  } else {
    f.caption =
        tr("The strip between the dashed and the solid line is normally cut off; when the back is "
           "off, it prevents a sliver. Add --border 3 to the command to see where a border of 3 mm "
           "would end.");
  }
  f.caption += tr(" Life-size when printed at 100 %; a screen may show it larger or smaller.");
  return finished(std::move(f), image.bottom_mm + 11);
}

}  // namespace versolay
