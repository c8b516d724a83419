#include "layout/grid.h"

#include <algorithm>
#include <cmath>

#include "core/expect.h"
#include "core/numbers.h"
#include "layout/findings.h"
#include "layout/slack.h"

namespace versolay {
namespace {

constexpr double kLongSideOfA3Mm = 400.0;  // from here on a sheet does not fit a cutter for A4
constexpr double kSmallestCardMm = 10.0;

struct Room {
  double width_mm = 0.0;
  double height_mm = 0.0;
};

double extent(double size, double gutter, int count) { return count * size + (count - 1) * gutter; }

int capacity(double room, double size, double gutter) {
  return std::max(0, static_cast<int>(std::floor((room + gutter + kSlackMm) / (size + gutter))));
}

CardSize turned(CardSize card) { return {card.height_mm, card.width_mm}; }

/// One way to fill the page: the shape of every block and how the cards lie in it.
struct Arrangement {
  GridShape block;
  int blocks = 1;
  bool sideways = false;
  int cards() const { return block.columns * block.rows * blocks; }
};

bool halved_left_right(const Paper& paper) { return paper.width_mm > paper.height_mm; }

Room room_of_block(const GridRequest& r, int blocks) {
  Room room{r.paper.width_mm, r.paper.height_mm};
  const Margins& m = r.margins;
  room.width_mm -= m.left_mm + m.right_mm;
  room.height_mm -= m.top_mm + m.bottom_mm;
  if (blocks == 2) {
    // Each half keeps a margin at its outer edge and waste beside the cut between the halves.
    const bool sides = halved_left_right(r.paper);
    const double outer = sides ? std::max(m.left_mm, m.right_mm) : std::max(m.top_mm, m.bottom_mm);
    double& length = sides ? room.width_mm : room.height_mm;
    length = (sides ? r.paper.width_mm : r.paper.height_mm) / 2 - 2 * outer;
  }
  return room;
}

/// Upright before sideways when both hold as many.
Arrangement fullest(const GridRequest& r, int blocks) {
  Room room = room_of_block(r, blocks);
  room.width_mm -= 2 * r.bleed_mm;
  room.height_mm -= 2 * r.bleed_mm;
  Arrangement best;
  for (bool sideways : {false, true}) {
    const CardSize card = sideways ? turned(r.card) : r.card;
    const Arrangement a{{capacity(room.width_mm, card.width_mm, r.gutter_mm),
                         capacity(room.height_mm, card.height_mm, r.gutter_mm)},
                        blocks,
                        sideways};
    if (a.cards() > best.cards()) best = a;
  }
  return best;
}

std::optional<Arrangement> of_shape(const GridRequest& r, int blocks) {
  GridShape block = *r.shape;
  if (blocks == 2) {
    int& halved = halved_left_right(r.paper) ? block.columns : block.rows;
    if (halved % 2 != 0) return std::nullopt;
    halved /= 2;
  }
  const Room room = room_of_block(r, blocks);
  for (bool sideways : {false, true}) {
    const CardSize card = sideways ? turned(r.card) : r.card;
    if (extent(card.width_mm, r.gutter_mm, block.columns) <= room.width_mm + kSlackMm &&
        extent(card.height_mm, r.gutter_mm, block.rows) <= room.height_mm + kSlackMm) {
      return Arrangement{block, blocks, sideways};
    }
  }
  return std::nullopt;
}

void append_block(CardGrid& grid, GridShape shape, Point<RectoMm> centre, int first_row,
                  int first_column) {
  const CardBlock block{centre, shape.columns, shape.rows,
                        extent(grid.card.width_mm, grid.gutter_mm, shape.columns),
                        extent(grid.card.height_mm, grid.gutter_mm, shape.rows)};
  for (int row = 0; row < shape.rows; ++row) {
    for (int column = 0; column < shape.columns; ++column) {
      const double x = (column - (shape.columns - 1) / 2.0) * (grid.card.width_mm + grid.gutter_mm);
      const double y = (row - (shape.rows - 1) / 2.0) * (grid.card.height_mm + grid.gutter_mm);
      grid.cells.push_back({first_row + row,
                            first_column + column,
                            {centre.x + x, centre.y + y},
                            static_cast<int>(grid.blocks.size())});
    }
  }
  grid.blocks.push_back(block);
}

CardGrid laid_out(const GridRequest& r, const Arrangement& a) {
  CardGrid grid;
  grid.card = a.sideways ? turned(r.card) : r.card;
  grid.gutter_mm = r.gutter_mm;
  grid.sideways = a.sideways;
  const bool left_right = a.blocks == 2 && halved_left_right(r.paper);
  const bool top_bottom = a.blocks == 2 && !left_right;
  grid.columns = a.block.columns * (left_right ? 2 : 1);
  grid.rows = a.block.rows * (top_bottom ? 2 : 1);
  for (int b = 0; b < a.blocks; ++b) {
    const double side = b == 0 ? -1 : 1;
    append_block(grid, a.block,
                 {left_right ? side * r.paper.width_mm / 4 : 0.0,
                  top_bottom ? side * r.paper.height_mm / 4 : 0.0},
                 top_bottom ? b * a.block.rows : 0, left_right ? b * a.block.columns : 0);
  }
  std::stable_sort(grid.cells.begin(), grid.cells.end(), [](const Cell& one, const Cell& other) {
    return std::pair(one.row, one.column) < std::pair(other.row, other.column);
  });
  return grid;
}

void validate(const GridRequest& r) {
  const auto sensible = [](double mm) { return mm >= kSmallestCardMm && mm <= 600.0; };
  if (!sensible(r.card.width_mm) || !sensible(r.card.height_mm)) {
    throw BadField("card", findings::card_size_out_of_range(Length{r.card.width_mm},
                                                            Length{r.card.height_mm}));
  }
  if (!(r.gutter_mm >= 0 && r.gutter_mm <= 100)) {
    throw BadField("gutter_mm", findings::gutter_out_of_range(Length{r.gutter_mm}));
  }
  for (double mm : {r.margins.left_mm, r.margins.top_mm, r.margins.right_mm, r.margins.bottom_mm}) {
    if (!(mm >= 0 && mm <= 50)) {
      throw BadField("margin_mm", findings::margin_out_of_range(Length{mm}));
    }
  }
  if (r.blocks && *r.blocks != 1 && *r.blocks != 2) {
    throw BadField("blocks", findings::blocks_out_of_range(*r.blocks));
  }
  if (r.shape && (r.shape->columns < 1 || r.shape->rows < 1 || r.shape->columns > 100 ||
                  r.shape->rows > 100)) {
    throw BadField("grid", findings::grid_shape_out_of_range(r.shape->columns, r.shape->rows));
  }
}

Refusal too_large(const GridRequest& r) {
  const Room room = room_of_block(r, 1);
  if (!r.shape) {
    return findings::no_card_fits(Length{r.card.width_mm + 2 * r.bleed_mm},
                                  Length{r.card.height_mm + 2 * r.bleed_mm}, Length{r.bleed_mm},
                                  Length{room.width_mm}, Length{room.height_mm}, r.paper.name);
  }
  const auto needed = [&](double card_mm, int cards) {
    return Length{extent(card_mm, r.gutter_mm, cards)};
  };
  return findings::block_too_large(
      r.shape->columns, r.shape->rows, needed(r.card.width_mm, r.shape->columns),
      needed(r.card.height_mm, r.shape->rows), needed(r.card.height_mm, r.shape->columns),
      needed(r.card.width_mm, r.shape->rows), Length{room.width_mm}, Length{room.height_mm},
      r.paper.name);
}

}  // namespace

CardGrid centred_grid(CardSize card, int columns, int rows, double gutter_mm) {
  expect(columns > 0 && rows > 0 && gutter_mm >= 0);
  CardGrid grid;
  grid.card = card;
  grid.columns = columns;
  grid.rows = rows;
  grid.gutter_mm = gutter_mm;
  append_block(grid, {columns, rows}, {0.0, 0.0}, 0, 0);
  return grid;
}

Result<CardGrid> fit_grid(const GridRequest& r) {
  validate(r);
  const bool large = std::max(r.paper.width_mm, r.paper.height_mm) >= kLongSideOfA3Mm;
  if (r.shape) {
    const auto one = of_shape(r, 1);
    const auto two = of_shape(r, 2);
    if (r.blocks == 2 && !two) {
      if (!one) return too_large(r);
      return findings::grid_not_halved(r.shape->columns, r.shape->rows, r.paper.name);
    }
    if (two && (r.blocks == 2 || (!r.blocks && large))) return laid_out(r, *two);
    if (!one) return too_large(r);
    return laid_out(r, *one);
  }
  const Arrangement one = fullest(r, 1);
  const Arrangement two = fullest(r, 2);
  const bool use_two = r.blocks ? *r.blocks == 2 : large && two.cards() >= one.cards();
  const Arrangement& chosen = use_two ? two : one;
  if (chosen.cards() == 0) return too_large(r);
  return laid_out(r, chosen);
}

CardGrid moved(CardGrid grid, const Eigen::Vector2d& by_mm) {
  for (Cell& cell : grid.cells) cell.centre = Point<RectoMm>::from(cell.centre.vec() + by_mm);
  for (CardBlock& b : grid.blocks) b.centre = Point<RectoMm>::from(b.centre.vec() + by_mm);
  return grid;
}

}  // namespace versolay
