#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "layout/cut_plan.h"
#include "layout/findings.h"
#include "layout/grid.h"
#include "support/findings.h"

namespace versolay {
namespace {

constexpr CardSize kCard{63.0, 88.0};

GridRequest request(const char* paper) {
  GridRequest r;
  r.paper = parse_paper(paper);
  r.card = kCard;
  return r;
}

TEST(CentredGrid, HasItsMiddleAtThePageCentreAndRunsRowByRow) {
  const CardGrid grid = centred_grid(kCard, 3, 3, 2.0);
  ASSERT_EQ(grid.cells.size(), 9U);
  EXPECT_DOUBLE_EQ(grid.cells[0].centre.x, -65.0);
  EXPECT_DOUBLE_EQ(grid.cells[0].centre.y, -90.0);
  EXPECT_EQ(grid.cells[1].column, 1);
  EXPECT_DOUBLE_EQ(grid.cells[4].centre.x, 0.0);
  EXPECT_DOUBLE_EQ(grid.cells[8].centre.y, 90.0);
  EXPECT_DOUBLE_EQ(grid.blocks.at(0).width_mm, 3 * 63 + 2 * 2);
}

TEST(FitGrid, PutsNineCardsOnA4AndOnLetter) {
  for (const char* paper : {"a4", "letter"}) {
    const auto grid = fit_grid(request(paper));
    ASSERT_TRUE(grid.ok()) << paper;
    EXPECT_EQ(grid.value().columns, 3) << paper;
    EXPECT_EQ(grid.value().rows, 3) << paper;
    EXPECT_FALSE(grid.value().sideways);
  }
}

// Poker cards on their side, 3 x 6: 266.7 mm wide. Tabloid has 269.4 mm inside margins of 5 mm.
TEST(FitGrid, LeavesRoomForTheBleedWhenItChoosesTheGrid) {
  GridRequest r = request("tabloid");
  r.card = {63.5, 88.9};
  r.blocks = 1;
  r.bleed_mm = 1.3;
  EXPECT_EQ(fit_grid(r).value().cells.size(), 18U);
  r.bleed_mm = 1.4;
  const auto fewer = fit_grid(r);
  ASSERT_TRUE(fewer.ok());
  EXPECT_EQ(fewer.value().cells.size(), 16U);
  EXPECT_LE(fewer.value().blocks[0].width_mm + 2 * 1.4, 269.4);
  r.shape = GridShape{3, 6};  // asked for: whether it can be printed is seen by its placement
  EXPECT_EQ(fit_grid(r).value().cells.size(), 18U);
}

TEST(FitGrid, PutsEighteenOnA3AsTwoBlocksEachInsideItsHalf) {
  for (const char* paper : {"a3", "420x297mm"}) {
    const auto grid = fit_grid(request(paper));
    ASSERT_TRUE(grid.ok()) << paper;
    EXPECT_EQ(grid.value().cells.size(), 18U);
    ASSERT_EQ(grid.value().blocks.size(), 2U);
    const auto& [a, b] = std::pair(grid.value().blocks[0], grid.value().blocks[1]);
    const bool side_by_side = a.centre.y == b.centre.y;
    EXPECT_EQ(side_by_side, std::string(paper) != "a3");
    const double waste =
        side_by_side ? b.centre.x - a.centre.x - a.width_mm : b.centre.y - a.centre.y - a.height_mm;
    EXPECT_DOUBLE_EQ(waste, 210.0 - 189.0);  // the halves are A4 (ISO 216), the blocks 3 x 63 wide
    EXPECT_EQ(grid.value().sideways, !side_by_side);
  }
}

TEST(FitGrid, PutsEighteenOnA3AsOneBlockWhenAsked) {
  GridRequest landscape = request("420x297mm");
  landscape.blocks = 1;
  const auto six_by_three = fit_grid(landscape);
  ASSERT_TRUE(six_by_three.ok());
  EXPECT_EQ(six_by_three.value().columns, 6);
  EXPECT_EQ(six_by_three.value().rows, 3);
  EXPECT_FALSE(six_by_three.value().sideways);

  GridRequest portrait = request("a3");
  portrait.blocks = 1;
  const auto three_by_six = fit_grid(portrait);
  ASSERT_TRUE(three_by_six.ok());
  EXPECT_EQ(three_by_six.value().columns, 3);
  EXPECT_EQ(three_by_six.value().rows, 6);
  EXPECT_TRUE(three_by_six.value().sideways);
  EXPECT_DOUBLE_EQ(three_by_six.value().card.width_mm, 88.0);
}

TEST(FitGrid, CellsOfTwoBlocksAreCountedOverThePageRowByRow) {
  const auto grid = fit_grid(request("420x297mm"));
  ASSERT_TRUE(grid.ok());
  for (std::size_t i = 0; i < 18; ++i) {
    EXPECT_EQ(grid.value().cells[i].row, static_cast<int>(i / 6));
    EXPECT_EQ(grid.value().cells[i].column, static_cast<int>(i % 6));
    EXPECT_EQ(grid.value().cells[i].block, i % 6 < 3 ? 0 : 1);
  }
}

TEST(FitGrid, RefusesWhatDoesNotFitAndNamesTheRoom) {
  GridRequest r = request("a4");
  r.shape = GridShape{4, 4};
  const auto grid = fit_grid(r);
  ASSERT_FALSE(grid.ok());
  EXPECT_EQ(grid.refusal().code, "grid_too_large");
  EXPECT_NEAR(testing_support::fact<double>(grid.refusal(), "room_width_mm"), 200, 1e-9);
  EXPECT_NEAR(testing_support::fact<double>(grid.refusal(), "room_height_mm"), 287, 1e-9);

  r.shape = GridShape{3, 3};
  r.blocks = 2;
  EXPECT_EQ(fit_grid(r).refusal().code, "grid_not_halved");
}

TEST(FitGrid, FillsTheRoomExactlyWithoutLosingACardToRounding) {
  GridRequest r = request("a4");
  r.card = {200.0 / 3, 287.0 / 3};
  const auto grid = fit_grid(r);
  ASSERT_TRUE(grid.ok());
  EXPECT_EQ(grid.value().cells.size(), 9U);
}

TEST(FitGrid, ThrowsForSizesThatMakeNoSense) {
  GridRequest r = request("a4");
  r.card = {0.0, 88.0};
  EXPECT_THROW((void)fit_grid(r), Error);
  r = request("a4");
  r.gutter_mm = -1;
  EXPECT_THROW((void)fit_grid(r), Error);
  r = request("a4");
  r.gutter_mm = std::nan("");
  EXPECT_THROW((void)fit_grid(r), Error);
}

// Counts of strokes: n cards in one block, 4 outer edges and n - 1 cuts more when they abut, two
// for each of those with gutters (derived: every cut adds one piece).
TEST(CutPlan, CountsStrokes) {
  EXPECT_EQ(plan_cuts(centred_grid(kCard, 3, 3, 0)).strokes, 12);
  EXPECT_EQ(plan_cuts(centred_grid(kCard, 3, 3, 4)).strokes, 20);
  EXPECT_EQ(plan_cuts(centred_grid(kCard, 6, 3, 0)).strokes, 21);
  EXPECT_EQ(plan_cuts(centred_grid(kCard, 6, 3, 4)).strokes, 38);
  EXPECT_EQ(plan_cuts(fit_grid(request("a3")).value()).strokes, 25);
  GridRequest guttered = request("420x297mm");
  guttered.gutter_mm = 4;
  EXPECT_EQ(plan_cuts(fit_grid(guttered).value()).strokes, 41);
}

TEST(CutPlan, TrimsALongEdgeFirstThenAShortOneThenTheOppositeOnesByTheFence) {
  const CutPlan plan = plan_cuts(centred_grid(kCard, 3, 3, 0));
  ASSERT_GE(plan.cuts.size(), 4U);
  EXPECT_EQ(plan.cuts[0].what,
            findings::cut_first_edge(Term{"left"}));  // 264 mm long, the top is 189
  EXPECT_EQ(plan.cuts[0].by, CutBy::marks);
  EXPECT_EQ(plan.cuts[1].what, findings::cut_second_edge(Term{"top"}));
  EXPECT_EQ(plan.cuts[1].by, CutBy::marks);
  EXPECT_EQ(plan.cuts[2].by, CutBy::fence);
  EXPECT_DOUBLE_EQ(plan.cuts[2].fence_mm, 189.0);
  EXPECT_DOUBLE_EQ(plan.cuts[3].fence_mm, 264.0);
  EXPECT_FALSE(plan.halving.has_value());
}

TEST(CutPlan, FenceSettingsLeavePiecesOfTheSizeOfTheCard) {
  // Follow the settings of the inner cuts on a ruler: pieces between successive cuts must be cards
  // and gutters in turn.
  const CutPlan plan = plan_cuts(centred_grid(kCard, 3, 3, 4), 1.01, 1.0);
  std::vector<double> columns;
  for (const Cut& cut : plan.cuts) {
    const std::string* piece = cut.what.find_text("piece");
    if (piece != nullptr && *piece == "column") columns.push_back(cut.fence_mm);
  }
  std::vector<double> pieces;
  double right = plan.cuts[2].fence_mm;
  for (double cut : columns) {
    pieces.push_back(right - cut);
    right = cut;
  }
  pieces.push_back(right);
  const double card = 63 * 1.01;
  const double gutter = 4 * 1.01;
  using testing::DoubleNear;
  EXPECT_THAT(pieces, testing::ElementsAre(DoubleNear(card, 1e-9), DoubleNear(gutter, 1e-9),
                                           DoubleNear(card, 1e-9), DoubleNear(gutter, 1e-9),
                                           DoubleNear(card, 1e-9)));
}

TEST(CutPlan, HalvesTheSheetFirst) {
  const CutPlan plan = plan_cuts(fit_grid(request("a3")).value());
  EXPECT_EQ(plan.halving, 1);
  EXPECT_EQ(plan.first_edge, 2);
  EXPECT_EQ(plan.cuts[1].strokes, 2);  // once on each half
}

}  // namespace
}  // namespace versolay
