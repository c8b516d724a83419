// Where the artwork of a card goes on its page: which rectangle of the page it may ink, and how
// its image is scaled and turned to fill it.
#pragma once

#include <span>
#include <vector>

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

/// The places of all cells on the verso page, in the order of the grid, each moved by its own
/// `moved_mm` (verso page; empty: none is moved). Neighbours share the line halfway between their
/// moved edges, so that ink neither overlaps nor is missing between them.
std::vector<CardPlace> verso_places(const CardGrid& grid, TurnAxis axis, Reach reach,
                                    std::span<const Eigen::Vector2d> moved_mm = {});

/// An image of the upright card: size and centre on the page before it is cropped to `ink`.
struct ImagePlace {
  Point<PageMm> centre;
  double width_mm = 0.0;  // of the upright image, before the quarter turns
  double height_mm = 0.0;
  double aspect_error = 0.0;  // (width / height of the image) / (that of the card) - 1
  double enlargement = 1.0;   // against filling card and bleed exactly
};

/// How an image that has not exactly the shape of the card is brought to its size. Never distorted.
enum class ArtFit {
  fill,  // covers the card; the excess is cut off, equally on both sides
  fit,   // all of it is to be seen; the rest of the card stays empty
  crop,  // at the size that its file states, cut to the card
};

/// An image as it is seen upright, in any unit of its own.
struct ArtSize {
  double width = 0.0;  // px of a picture, mm of a page
  double height = 0.0;
  double mm_per_unit = 0.0;  // as the file states; 0: it does not (crop then fills)
};

/// Fits the image to `place.cell` plus `bleed_mm` (what the artwork has of its own beyond the
/// card); filled, it is then enlarged until it covers the cell plus `reach` too. Scaled equally in
/// both directions and centred.
ImagePlace place_image(const CardPlace& place, const ArtSize& size, ArtFit fit, double bleed_mm,
                       Reach reach);

}  // namespace versolay
