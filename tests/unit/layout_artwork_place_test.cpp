#include <gtest/gtest.h>

#include "layout/artwork_place.h"
#include "layout/grid.h"

namespace versolay {
namespace {

constexpr CardSize kCard{63.0, 88.0};
constexpr Reach kReach{0.7, 0.5};

const Cell& cell_at(const CardGrid& grid, int row, int column) {
  for (const Cell& cell : grid.cells) {
    if (cell.row == row && cell.column == column) return cell;
  }
  throw std::logic_error("no such cell");
}

TEST(VersoPlace, IsStraightBehindTheRectoCell) {
  const CardGrid grid = centred_grid(kCard, 3, 3, 0);
  const Cell& top_left = cell_at(grid, 0, 0);
  // Turned like the page of a book, the left column of the front is the right one of the back.
  const PageRect book = verso_place(grid, top_left, TurnAxis::vertical, {}).cell;
  EXPECT_DOUBLE_EQ(book.centre().x, 63.0);
  EXPECT_DOUBLE_EQ(book.centre().y, -88.0);
  // Turned over the top edge, the top row of the front is the bottom one of the back.
  const PageRect flipped = verso_place(grid, top_left, TurnAxis::horizontal, {}).cell;
  EXPECT_DOUBLE_EQ(flipped.centre().x, -63.0);
  EXPECT_DOUBLE_EQ(flipped.centre().y, 88.0);
}

TEST(VersoPlace, GivesOuterEdgesAllOfTheReachAndStopsAtTheCommonCut) {
  const CardGrid grid = centred_grid(kCard, 3, 3, 0);
  const CardPlace corner = verso_place(grid, cell_at(grid, 0, 0), TurnAxis::vertical, kReach);
  EXPECT_DOUBLE_EQ(corner.ink.right_mm, corner.cell.right_mm + 0.7);  // outer, seen from the back
  EXPECT_DOUBLE_EQ(corner.ink.left_mm, corner.cell.left_mm);          // common cut
  EXPECT_DOUBLE_EQ(corner.ink.top_mm, corner.cell.top_mm - 0.5);
  EXPECT_DOUBLE_EQ(corner.ink.bottom_mm, corner.cell.bottom_mm);
  const CardPlace middle = verso_place(grid, cell_at(grid, 1, 1), TurnAxis::vertical, kReach);
  EXPECT_EQ(middle.ink, middle.cell);
}

TEST(VersoPlace, NeverOverlapsItsNeighbours) {
  for (const double gutter : {0.0, 0.6, 1.4, 5.0}) {
    const CardGrid grid = centred_grid(kCard, 3, 3, gutter);
    for (const Cell& a : grid.cells) {
      for (const Cell& b : grid.cells) {
        if (&a == &b) continue;
        const PageRect p = verso_place(grid, a, TurnAxis::vertical, kReach).ink;
        const PageRect q = verso_place(grid, b, TurnAxis::vertical, kReach).ink;
        const double width = std::min(p.right_mm, q.right_mm) - std::max(p.left_mm, q.left_mm);
        const double height = std::min(p.bottom_mm, q.bottom_mm) - std::max(p.top_mm, q.top_mm);
        EXPECT_TRUE(width <= 1e-9 || height <= 1e-9) << "gutter " << gutter;
      }
    }
  }
}

TEST(VersoPlace, BlocksDoNotLimitEachOther) {
  GridRequest request;
  request.paper = parse_paper("420x297mm");
  request.card = kCard;
  const CardGrid grid = fit_grid(request).value();
  // Columns 2 and 3 are neighbours on the page, but in different blocks: waste lies between.
  const CardPlace edge = verso_place(grid, cell_at(grid, 1, 2), TurnAxis::vertical, kReach);
  EXPECT_DOUBLE_EQ(edge.ink.left_mm, edge.cell.left_mm - 0.7);
}

// The top of a card must point the same way in space on both sides, so that a card turned over in
// the hand left to right is upright. Which way "up" points on a page after q clockwise quarters:
Eigen::Vector2d up(int quarters) {
  Eigen::Vector2d v(0, -1);
  for (int i = 0; i < quarters; ++i) v = Eigen::Vector2d(-v.y(), v.x());
  return v;
}

TEST(VersoPlace, KeepsTheCardUprightWhenItIsTurnedOverInTheHand) {
  for (const bool sideways : {false, true}) {
    CardGrid grid = centred_grid(kCard, 2, 2, 0);
    grid.sideways = sideways;
    for (const TurnAxis axis : {TurnAxis::vertical, TurnAxis::horizontal}) {
      const Cell& cell = grid.cells[0];
      const Eigen::Vector2d front = up(recto_place(grid, cell, {}).quarter_turns);
      const Eigen::Vector2d back = up(verso_place(grid, cell, axis, {}).quarter_turns);
      EXPECT_TRUE(back.isApprox(verso_from_recto(axis).linear() * front));
    }
  }
}

TEST(Fill, CropsTheExcessOfAnImageOfTheWrongShapeEvenly) {
  const CardGrid grid = centred_grid(kCard, 1, 1, 0);
  const CardPlace place = recto_place(grid, grid.cells[0], {});
  const ImagePlace square = place_image(place, {1000, 1000}, ArtFit::fill, 0, {});
  EXPECT_DOUBLE_EQ(square.height_mm, 88.0);
  EXPECT_DOUBLE_EQ(square.width_mm, 88.0);
  EXPECT_DOUBLE_EQ(square.centre.x, 0.0);
  EXPECT_NEAR(square.aspect_error, 88.0 / 63.0 - 1, 1e-12);
}

TEST(Fill, EnlargesAlikeInBothDirections) {
  const CardGrid grid = centred_grid(kCard, 1, 1, 0);
  const Reach reach{0.7, 0.7};
  const CardPlace place = recto_place(grid, grid.cells[0], reach);
  const ImagePlace image = place_image(place, {630, 880}, ArtFit::fill, 0, reach);
  EXPECT_NEAR(image.width_mm / image.height_mm, 63.0 / 88.0, 1e-12);
  EXPECT_NEAR(image.width_mm, 63 + 1.4, 1e-12);  // the narrow direction needs the larger scale
  EXPECT_GE(image.height_mm, 88 + 1.4);
}

TEST(Fill, LeavesArtworkAloneThatHasBleedEnough) {
  const CardGrid grid = centred_grid(kCard, 1, 1, 0);
  const Reach reach{0.7, 0.7};
  const CardPlace place = recto_place(grid, grid.cells[0], reach);
  const ImagePlace image = place_image(place, {690, 940}, ArtFit::fill, 3.0, reach);
  EXPECT_DOUBLE_EQ(image.enlargement, 1.0);
  EXPECT_NEAR(image.width_mm, 69.0, 1e-12);
  EXPECT_NEAR(image.aspect_error, 0.0, 1e-12);
}

TEST(Fill, TurnsWidthAndHeightForCardsOnTheirSide) {
  CardGrid grid = centred_grid({88.0, 63.0}, 1, 1, 0);
  grid.sideways = true;
  const CardPlace place = recto_place(grid, grid.cells[0], {});
  const ImagePlace image = place_image(place, {630, 880}, ArtFit::fill, 0, {});
  EXPECT_NEAR(image.width_mm, 63.0, 1e-12);  // of the upright image
  EXPECT_NEAR(image.height_mm, 88.0, 1e-12);
  EXPECT_NEAR(image.aspect_error, 0.0, 1e-12);
}

}  // namespace
}  // namespace versolay
