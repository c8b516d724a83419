#include "layout/artwork_place.h"

#include <algorithm>
#include <cmath>

#include "core/expect.h"
#include "layout/slack.h"

namespace versolay {
namespace {

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

/// The two edges of a rectangle along one axis.
struct AxisEdges {
  double PageRect::*low;
  double PageRect::*high;
};
constexpr AxisEdges kAcross{&PageRect::left_mm, &PageRect::right_mm};
constexpr AxisEdges kDown{&PageRect::top_mm, &PageRect::bottom_mm};

/// Keeps `ink` of the card `own` on its side of the line to its neighbour `other`, if that is one
/// along `axis`. The line is the middle of the gutter, moved by `line_mm`. Ink that would end
/// before it without any movement stays with its card.
void share_line(PageRect& ink, const PageRect& own, const PageRect& other, const AxisEdges& axis,
                const AxisEdges& other_axis, double gutter_mm, double reach_mm, double line_mm) {
  if (std::abs(own.*other_axis.low - other.*other_axis.low) > kSlackMm) return;
  const bool to_line = reach_mm >= gutter_mm / 2;
  if (std::abs(other.*axis.low - own.*axis.high - gutter_mm) < kSlackMm) {
    const double line = own.*axis.high + gutter_mm / 2 + line_mm;
    ink.*axis.high = to_line ? line : std::min(ink.*axis.high, line);
  } else if (std::abs(own.*axis.low - other.*axis.high - gutter_mm) < kSlackMm) {
    const double line = own.*axis.low - gutter_mm / 2 + line_mm;
    ink.*axis.low = to_line ? line : std::max(ink.*axis.low, line);
  }
}

/// How far the ink may go at one edge: all of the reach, or to the middle of the gutter.
double allowed(const CardGrid& grid, bool neighbour, double reach) {
  return neighbour ? std::min(reach, grid.gutter_mm / 2) : reach;
}

}  // namespace

CardPlace recto_place(const CardGrid& grid, const Cell& cell, Reach reach) {
  const PageRect rect = around(relabel<PageMm>(cell.centre), grid.card);
  PageRect ink = rect;
  ink.left_mm -= allowed(grid, has_neighbour(grid, cell, 0, -1), reach.x_mm);
  ink.top_mm -= allowed(grid, has_neighbour(grid, cell, -1, 0), reach.y_mm);
  ink.right_mm += allowed(grid, has_neighbour(grid, cell, 0, 1), reach.x_mm);
  ink.bottom_mm += allowed(grid, has_neighbour(grid, cell, 1, 0), reach.y_mm);
  return {rect, ink, grid.sideways ? 1 : 0};
}

CardPlace verso_place(const CardGrid& grid, const Cell& cell, TurnAxis axis, Reach reach) {
  const CardPlace front = recto_place(grid, cell, reach);
  // The top of the card points the same way in space on both sides: the mirror of the turn maps
  // one direction to the other. Up, right, down, left are 0..3 quarter turns.
  const int turns = axis == TurnAxis::vertical ? -front.quarter_turns : 2 - front.quarter_turns;
  return {mirrored(front.cell, axis), mirrored(front.ink, axis), (turns + 4) % 4};
}

std::vector<CardPlace> verso_places(const CardGrid& grid, TurnAxis axis, Reach reach,
                                    std::span<const Eigen::Vector2d> moved_mm) {
  std::vector<CardPlace> unmoved;
  for (const Cell& cell : grid.cells) unmoved.push_back(verso_place(grid, cell, axis, reach));
  if (moved_mm.empty()) return unmoved;
  expect(moved_mm.size() == grid.cells.size());
  std::vector<CardPlace> places = unmoved;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Eigen::Vector2d& own = moved_mm[i];
    places[i].cell = places[i].cell.moved(own);
    places[i].ink = places[i].ink.moved(own);
    for (std::size_t j = 0; j < places.size(); ++j) {
      if (grid.cells[j].block != grid.cells[i].block) continue;
      const Eigen::Vector2d line = (own + moved_mm[j]) / 2;
      share_line(places[i].ink, unmoved[i].cell, unmoved[j].cell, kAcross, kDown, grid.gutter_mm,
                 reach.x_mm, line.x());
      share_line(places[i].ink, unmoved[i].cell, unmoved[j].cell, kDown, kAcross, grid.gutter_mm,
                 reach.y_mm, line.y());
    }
  }
  return places;
}

ImagePlace place_image(const CardPlace& place, const ArtSize& size, ArtFit fit, double bleed_mm,
                       Reach reach) {
  expect(size.width > 0 && size.height > 0);
  const bool lies = place.quarter_turns % 2 != 0;
  const double card_width = lies ? place.cell.height_mm() : place.cell.width_mm();
  const double card_height = lies ? place.cell.width_mm() : place.cell.height_mm();
  const double reach_width = lies ? reach.y_mm : reach.x_mm;
  const double reach_height = lies ? reach.x_mm : reach.y_mm;

  const double trim_width = card_width + 2 * bleed_mm;
  const double trim_height = card_height + 2 * bleed_mm;
  const auto [narrow, wide] = std::minmax({trim_width / size.width, trim_height / size.height});
  const bool as_stated = fit == ArtFit::crop && size.mm_per_unit > 0;
  const double mm_per_unit = as_stated ? size.mm_per_unit : fit == ArtFit::fit ? narrow : wide;
  double enlargement = 1.0;
  if (fit == ArtFit::fill) {
    enlargement = std::max({1.0, (card_width + 2 * reach_width) / (mm_per_unit * size.width),
                            (card_height + 2 * reach_height) / (mm_per_unit * size.height)});
  }
  return {place.cell.centre(), size.width * mm_per_unit * enlargement,
          size.height * mm_per_unit * enlargement,
          size.width / size.height / (trim_width / trim_height) - 1.0, enlargement};
}

}  // namespace versolay
