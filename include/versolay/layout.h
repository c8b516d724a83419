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

/// What a printer leaves white of each edge of a page, as one looks at that page, mm.
struct Margins {
  double left_mm = 5.0;
  double top_mm = 5.0;
  double right_mm = 5.0;
  double bottom_mm = 5.0;

  constexpr Margins() = default;
  constexpr Margins(double all_mm)  // NOLINT: implicit by design, most printers have one margin
      : Margins(all_mm, all_mm, all_mm, all_mm) {}
  constexpr Margins(double left, double top, double right, double bottom)
      : left_mm(left), top_mm(top), right_mm(right), bottom_mm(bottom) {}
};

/// One cell of the recto page. Row 0 is the top row, column 0 the left one, seen from the front,
/// counted over the whole page.
struct Cell {
  int row = 0;
  int column = 0;
  Point<RectoMm> centre;
  int block = 0;  // index into CardGrid::blocks
};

/// A rectangle of cells that is cut out of the sheet as one piece.
struct CardBlock {
  Point<RectoMm> centre;
  int columns = 0;
  int rows = 0;
  double width_mm = 0.0;
  double height_mm = 0.0;
};

/// What the rim of a back is made of: it decides what may be printed beyond the cut.
enum class EdgeKind {
  white,    // paper white: nothing is printed at the cut anyway
  plain,    // one colour all around: it can be continued beyond the cut
  pattern,  // right goes on in left and bottom in top: it can be repeated
  picture,  // anything else: it ends where it ends
};

/// How far a back image reaches beyond its card at each edge, as one looks at the back page.
struct EdgeReach {
  double left_mm = 0.0;
  double top_mm = 0.0;
  double right_mm = 0.0;
  double bottom_mm = 0.0;
};

/// Cards in one block, or in several (A3 as two halves), gutters between the cards of a block.
struct CardGrid {
  CardSize card;  // as it lies on the page
  int columns = 0;
  int rows = 0;
  double gutter_mm = 0.0;
  std::vector<Cell> cells;  // row by row
  std::vector<CardBlock> blocks;
  bool sideways = false;  // the cards are rotated, clockwise by a quarter on the recto
};

/// A block of columns x rows, centred on the page.
CardGrid centred_grid(CardSize card, int columns, int rows, double gutter_mm);

}  // namespace versolay
