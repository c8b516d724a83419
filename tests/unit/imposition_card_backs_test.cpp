#include <gtest/gtest.h>

#include "imposition/card_backs.h"

namespace versolay {
namespace {

Affine<VersoMm, VersoMm> landed(double right, double down, double rotation_mrad = 0.0) {
  return Registration{right, down, rotation_mrad, 0, 0, 0}.landed_from_page();
}

/// One card in the middle of the page, its back reaching 0.5 mm beyond it across and 0.4 mm down.
CardBack middle_card() { return {{-30, -40, 30, 40}, {0, 0}, {-30.5, -40.4, 30.5, 40.4}}; }

TEST(CardBack, IsCleanAsLongAsItReachesFarEnough) {
  EXPECT_TRUE(is_clean(middle_card(), landed(0, 0)));
  EXPECT_TRUE(is_clean(middle_card(), landed(0.49, -0.39)));
  EXPECT_FALSE(is_clean(middle_card(), landed(0.51, 0)));
  EXPECT_FALSE(is_clean(middle_card(), landed(-0.51, 0)));
  EXPECT_FALSE(is_clean(middle_card(), landed(0, 0.41)));
  EXPECT_FALSE(is_clean(middle_card(), landed(0, -0.41)));
}

TEST(CardBack, TurnedItFallsShortAtACorner) {
  // 40 mm up from the middle a turn of 10 mrad moves the left edge by 0.4 mm, one of 13 mrad by
  // 0.52.
  EXPECT_TRUE(is_clean(middle_card(), landed(0, 0, 10)));
  EXPECT_FALSE(is_clean(middle_card(), landed(0, 0, 13)));
}

TEST(CardBack, IsOffByItsFarthestCorner) {
  EXPECT_NEAR(off_mm(middle_card(), landed(0.3, 0.4)), 0.5, 1e-12);
  // Corners are 50 mm from the middle: 2 mrad are 0.1 mm there.
  EXPECT_NEAR(off_mm(middle_card(), landed(0, 0, 2)), 0.1, 1e-12);
}

TEST(CardBack, MovedByItselfItLandsRightWhereThePageIsOffTheOtherWay) {
  CardBack back = middle_card();
  back.moved_mm = {-0.6, 0};
  back.covered = back.covered.moved(back.moved_mm);
  EXPECT_FALSE(is_clean(back, landed(0, 0)));
  EXPECT_TRUE(is_clean(back, landed(0.6, 0)));
  EXPECT_NEAR(off_mm(back, landed(0.6, 0)), 0.0, 1e-12);
}

SheetPlan plan_of(CardGrid grid, Reach granted, double inner_mm) {
  SheetPlan plan;
  plan.paper = parse_paper("a4");
  plan.grid = std::move(grid);
  plan.back_reach.granted = granted;
  plan.back_reach.inner_mm = inner_mm;
  plan.back_reach.counts.picture = 1;
  plan.placed.resize(3);
  return plan;
}

TEST(CardsNote, PicturesThatTouchReachNoFurtherThanTheirCut) {
  const SheetPlan plan = plan_of(centred_grid({60, 80}, 2, 1, 0), {0.5, 0.4}, 0.0);
  const auto places = verso_places(plan.grid, plan.axis(), plan.back_reach.granted);
  const CardsNote note = cards_note(plan, places);
  EXPECT_EQ(note.cards, 3);
  ASSERT_EQ(note.backs.size(), 2u);
  // The left card of the front is the right one of the back: its neighbour is on its left.
  EXPECT_EQ(note.backs[0].card, (PageRect{0, -40, 60, 40}));
  EXPECT_EQ(note.backs[0].covered, (PageRect{0, -40.4, 60.5, 40.4}));
  EXPECT_FALSE(is_clean(note.backs[0], landed(0.1, 0)));
  EXPECT_TRUE(is_clean(note.backs[0], landed(-0.1, 0)));
}

TEST(CardsNote, ANeighbourThatLooksAlikeDoesNoHarm) {
  const SheetPlan plan = plan_of(centred_grid({60, 80}, 2, 1, 0), {0.5, 0.4}, 0.5);
  const auto places = verso_places(plan.grid, plan.axis(), plan.back_reach.granted);
  EXPECT_TRUE(is_clean(cards_note(plan, places).backs[0], landed(0.49, 0)));
  EXPECT_FALSE(is_clean(cards_note(plan, places).backs[0], landed(0.51, 0)));
}

TEST(CardsNote, WhiteEdgesShowNoSliver) {
  SheetPlan plan = plan_of(centred_grid({60, 80}, 2, 1, 0), {0, 0}, 0.0);
  plan.back_reach.counts = {.white = 1, .plain = 0, .pattern = 0, .picture = 0};
  const auto places = verso_places(plan.grid, plan.axis(), {});
  EXPECT_TRUE(is_clean(cards_note(plan, places).backs[0], landed(2, 2)));
}

}  // namespace
}  // namespace versolay
