#include <gtest/gtest.h>

#include "imposition/card_preview.h"

namespace versolay {
namespace {

/// Nine cells, each worse off than the one before.
Advice advice_for_nine() {
  Advice advice;
  advice.request.grid = centred_grid({63, 88}, 3, 3, 0.0);
  for (const Cell& cell : advice.request.grid.cells) {
    CellAdvice of_cell;
    of_cell.row = cell.row;
    of_cell.column = cell.column;
    of_cell.good_percent = 99.0 - cell.row - 0.1 * cell.column;
    advice.cells.push_back(of_cell);
  }
  return advice;
}

TEST(WorstCell, IsTheWorstOfAFullSheet) {
  EXPECT_EQ(worst_cell({}, advice_for_nine(), TurnAxis::vertical, 9).index, 8u);
  EXPECT_EQ(worst_cell({}, advice_for_nine(), TurnAxis::vertical, 54).index, 8u);
}

TEST(WorstCell, HoldsACardOnASheetThatIsNotFull) {
  for (const std::size_t cards : {1u, 2u, 5u}) {
    EXPECT_EQ(worst_cell({}, advice_for_nine(), TurnAxis::vertical, cards).index, cards - 1);
  }
}

}  // namespace
}  // namespace versolay
