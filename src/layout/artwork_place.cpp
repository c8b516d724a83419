#include "layout/artwork_place.h"

#include <algorithm>
#include <cassert>

namespace versolay {
namespace {

PageRect grown(const PageRect& r, double left, double top, double right, double bottom) {
  return {r.left_mm - left, r.top_mm - top, r.right_mm + right, r.bottom_mm + bottom};
}

PageRect around(const Point<PageMm>& centre, CardSize size) {
  return {centre.x - size.width_mm / 2, centre.y - size.height_mm / 2, centre.x + size.width_mm / 2,
          centre.y + size.height_mm / 2};
}

bool has_neighbour(const CardGrid& grid, const Cell& cell, int rows_down, int columns_right) {
  return std::any_of(grid.cells.begin(), grid.cells.end(), [&](const Cell& other) {
    return other.block == cell.block && other.row == cell.row + rows_down &&
           other.column == cell.column + columns_right;
  });
}

/// How far the ink may go at one edge: all of the reach, or to the middle of the gutter.
double allowed(const CardGrid& grid, bool neighbour, double reach) {
  return neighbour ? std::min(reach, grid.gutter_mm / 2) : reach;
}

}  // namespace

CardPlace recto_place(const CardGrid& grid, const Cell& cell, Reach reach) {
  const PageRect rect = around(relabel<PageMm>(cell.centre), grid.card);
  const PageRect ink = grown(rect, allowed(grid, has_neighbour(grid, cell, 0, -1), reach.x_mm),
                             allowed(grid, has_neighbour(grid, cell, -1, 0), reach.y_mm),
                             allowed(grid, has_neighbour(grid, cell, 0, 1), reach.x_mm),
                             allowed(grid, has_neighbour(grid, cell, 1, 0), reach.y_mm));
  return {rect, ink, grid.sideways ? 1 : 0};
}

CardPlace verso_place(const CardGrid& grid, const Cell& cell, TurnAxis axis, Reach reach) {
  const CardPlace front = recto_place(grid, cell, reach);
  const auto mirrored = [axis](const PageRect& r) -> PageRect {
    if (axis == TurnAxis::vertical) return {-r.right_mm, r.top_mm, -r.left_mm, r.bottom_mm};
    return {r.left_mm, -r.bottom_mm, r.right_mm, -r.top_mm};
  };
  // The top of the card points the same way in space on both sides: the mirror of the turn maps
  // one direction to the other. Up, right, down, left are 0..3 quarter turns.
  const int turns = axis == TurnAxis::vertical ? -front.quarter_turns : 2 - front.quarter_turns;
  return {mirrored(front.cell), mirrored(front.ink), (turns + 4) % 4};
}

ImagePlace fill(const CardPlace& place, double image_width_px, double image_height_px,
                double bleed_mm, Reach reach) {
  assert(image_width_px > 0 && image_height_px > 0);
  const bool lies = place.quarter_turns % 2 != 0;
  const double card_width = lies ? place.cell.height_mm() : place.cell.width_mm();
  const double card_height = lies ? place.cell.width_mm() : place.cell.height_mm();
  const double reach_width = lies ? reach.y_mm : reach.x_mm;
  const double reach_height = lies ? reach.x_mm : reach.y_mm;

  const double trim_width = card_width + 2 * bleed_mm;
  const double trim_height = card_height + 2 * bleed_mm;
  const double mm_per_px = std::max(trim_width / image_width_px, trim_height / image_height_px);
  const double enlargement =
      std::max({1.0, (card_width + 2 * reach_width) / (mm_per_px * image_width_px),
                (card_height + 2 * reach_height) / (mm_per_px * image_height_px)});
  return {place.cell.centre(), image_width_px * mm_per_px * enlargement,
          image_height_px * mm_per_px * enlargement,
          image_width_px / image_height_px / (trim_width / trim_height) - 1.0, enlargement};
}

}  // namespace versolay
