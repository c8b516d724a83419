// Cards on a sheet.
#pragma once

#include <vector>

#include "versolay/frames.h"
#include "versolay/paper.h"

namespace versolay {

/// Finished size of a card, mm.
struct CardSize {
  double width_mm = 0.0;
  double height_mm = 0.0;
  bool operator==(const CardSize&) const = default;
};

/// One cell of the recto page. Row 0 is the top row, column 0 the left one, seen from the front.
struct Cell {
  int row = 0;
  int column = 0;
  Point<RectoMm> centre;
};

/// Cards in one block, or in several (A3 as two halves), gutters between the cards of a block.
struct CardGrid {
  CardSize card;
  int columns = 0;
  int rows = 0;
  double gutter_mm = 0.0;
  std::vector<Cell> cells;  // row by row
};

/// A block of columns x rows, centred on the page.
CardGrid centred_grid(CardSize card, int columns, int rows, double gutter_mm);

}  // namespace versolay
