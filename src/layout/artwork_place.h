// Where the artwork of a card goes on its page: which rectangle of the page it may ink, and how
// its image is scaled and turned to fill it.
#pragma once

#include "core/drawing.h"
#include "versolay/layout.h"

namespace versolay {

/// How far the artwork reaches beyond the card, per side, before neighbours are minded.
struct Reach {
  double x_mm = 0.0;
  double y_mm = 0.0;
};

/// A card's place on a page.
struct CardPlace {
  PageRect cell;          // the card itself
  PageRect ink;           // cell plus reach, stopped half way to a neighbour in the same block
  int quarter_turns = 0;  // of the artwork, clockwise as one looks at the page
};

/// The place of a cell on the recto page.
CardPlace recto_place(const CardGrid& grid, const Cell& cell, Reach reach);

/// The place of the same cell on the verso page, straight behind it. The quarter turns keep the
/// card upright when it is turned over left to right in the hand (head to head).
CardPlace verso_place(const CardGrid& grid, const Cell& cell, TurnAxis axis, Reach reach);

/// An image of the upright card: size and centre on the page before it is cropped to `ink`.
struct ImagePlace {
  Point<PageMm> centre;
  double width_mm = 0.0;  // of the upright image, before the quarter turns
  double height_mm = 0.0;
  double aspect_error = 0.0;  // (width / height of the image) / (that of the card) - 1
  double enlargement = 1.0;   // against filling card and bleed exactly
};

/// Fills `place.cell` plus `bleed_mm` (what the artwork has of its own beyond the card), then the
/// cell plus `reach`: scaled alike in both directions so that nothing is distorted, centred, the
/// excess cropped.
ImagePlace fill(const CardPlace& place, double image_width_px, double image_height_px,
                double bleed_mm, Reach reach);

}  // namespace versolay
