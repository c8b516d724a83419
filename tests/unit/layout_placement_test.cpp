#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "layout/guides.h"
#include "layout/placement.h"
#include "support/findings.h"
#include "versolay/registration.h"

namespace versolay {
namespace {

constexpr CardSize kCard{63.0, 88.0};

PlacementRequest request(double dx_mm, double dy_mm, Reach back) {
  PlacementRequest r;
  r.grid = centred_grid(kCard, 3, 3, 0);
  r.paper = parse_paper("a4");
  r.back = back;
  r.page_from_wanted = Registration{dx_mm, dy_mm, 0, 0, 0, 0}.page_from_wanted();
  return r;
}

/// Does everything lie inside the printable area? Corner by corner, from the cells themselves.
bool printable(const PlacementRequest& r, const Placement& p) {
  const PageRect area = printable_area(r.paper, r.margins);
  const TurnAxis axis = turn_axis(r.turn, r.paper);
  const auto inside = [&](double x, double y) {
    return x >= area.left_mm - 1e-3 && x <= area.right_mm + 1e-3 && y >= area.top_mm - 1e-3 &&
           y <= area.bottom_mm + 1e-3;
  };
  for (const Cell& cell : p.grid.cells) {
    const PageRect front = recto_place(p.grid, cell, r.front).ink;
    const PageRect back = verso_place(p.grid, cell, axis, p.back).ink;
    for (const double x : {front.left_mm, front.right_mm}) {
      for (const double y : {front.top_mm, front.bottom_mm}) {
        if (!inside(x, y)) return false;
      }
    }
    for (const double x : {back.left_mm, back.right_mm}) {
      for (const double y : {back.top_mm, back.bottom_mm}) {
        const auto moved = r.page_from_wanted({x, y});
        if (!inside(moved.x, moved.y)) return false;
      }
    }
  }
  return true;
}

TEST(PlaceOnPaper, LeavesAloneWhatFits) {
  const PlacementRequest r = request(0.4, -0.3, {0.7, 0.7});
  const auto p = place_on_paper(r);
  ASSERT_TRUE(p.ok());
  EXPECT_TRUE(p.value().moved_mm.isZero());
  EXPECT_TRUE(p.value().remedies.empty());
  EXPECT_TRUE(printable(r, p.value()));
}

// 3 x 63 mm in 200 mm of width leave 5.5 mm a side; a back moved by 6 mm needs 0.5 mm + oversize.
TEST(PlaceOnPaper, MovesTheBlockJustEnoughWhenTheBackWouldClip) {
  for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
    PlacementRequest r = request(-6.0, 0, {1.0, 0});
    r.turn = turn;
    const auto p = place_on_paper(r);
    ASSERT_TRUE(p.ok());
    // The back goes 6 mm right, 1.5 mm too far. Turned like a page, moving the block right on the
    // front moves it left on the back; turned over the top edge, right stays right.
    EXPECT_NEAR(p.value().moved_mm.x(), turn == Turn::long_edge ? 1.5 : -1.5, 1e-5);
    EXPECT_DOUBLE_EQ(p.value().moved_mm.y(), 0.0);
    EXPECT_DOUBLE_EQ(p.value().back.x_mm, 1.0);
    ASSERT_EQ(p.value().remedies.size(), 1U);
    EXPECT_EQ(p.value().remedies[0].code, "block_moved");
    EXPECT_NEAR(testing_support::fact<double>(p.value().remedies[0], "by_mm"), 1.5, 1e-5);
    EXPECT_EQ(testing_support::fact<>(p.value().remedies[0], "way"),
              turn == Turn::long_edge ? "right" : "left");
    EXPECT_TRUE(printable(r, p.value()));
  }
}

// Front and back need 11 mm of room between them: 2 x 5.5; what is over goes off the oversize.
TEST(PlaceOnPaper, ReducesTheOversizeWhenMovingIsNotEnough) {
  const PlacementRequest r = request(-10.5, 0, {1.0, 0.5});
  const auto p = place_on_paper(r);
  ASSERT_TRUE(p.ok());
  EXPECT_NEAR(p.value().back.x_mm, 0.5, 1e-4);
  EXPECT_DOUBLE_EQ(p.value().back.y_mm, 0.5);
  ASSERT_EQ(p.value().remedies.size(), 2U);
  EXPECT_EQ(p.value().remedies[1].code, "oversize_reduced");
  EXPECT_EQ(testing_support::fact<>(p.value().remedies[1], "where"), "left and right");
  EXPECT_TRUE(printable(r, p.value()));
}

TEST(PlaceOnPaper, RefusesWhenTheCardsThemselvesDoNotFit) {
  const auto p = place_on_paper(request(-12.0, 0, {0.5, 0.5}));
  ASSERT_FALSE(p.ok());
  EXPECT_EQ(p.refusal().code, "not_printable");
  EXPECT_NEAR(testing_support::fact<double>(p.refusal(), "too_wide_mm"), 1.0, 1e-6);
}

TEST(PlaceOnPaper, CountsTheRotationOfTheCorrection) {
  PlacementRequest r = request(0, 0, {5.4, 0});
  r.page_from_wanted = Registration{0, 0, 5.0, 0, 0, 0}.page_from_wanted();
  const auto p = place_on_paper(r);
  ASSERT_TRUE(p.ok());
  EXPECT_TRUE(printable(r, p.value()));
  EXPECT_LT(p.value().back.x_mm, 5.4);  // 5 mrad over 132 mm swing the corners out by 0.66 mm
}

class GuidesTest : public testing::TestWithParam<double> {};

TEST_P(GuidesTest, StandInTheWasteClearOfBleedInsideThePrintableArea) {
  const CardGrid grid = centred_grid(kCard, 3, 3, GetParam());
  const PageRect area = printable_area(parse_paper("a4"), 5.0);
  const Reach bleed{0.5, 0.5};
  const Guides guides = cut_guides(grid, plan_cuts(grid), area, bleed);
  EXPECT_TRUE(guides.complete);
  const PageRect inked = recto_extent(grid, bleed);
  int lines = 0;
  for (const Shape& shape : guides.drawing) {
    const auto* line = std::get_if<Polyline>(&shape);
    if (line == nullptr) continue;
    ++lines;
    for (const auto& p : line->points) {
      EXPECT_GE(p.x, area.left_mm);
      EXPECT_LE(p.x, area.right_mm);
      EXPECT_GE(p.y, area.top_mm);
      EXPECT_LE(p.y, area.bottom_mm);
      const bool clear = p.x <= inked.left_mm - 1 + 1e-9 || p.x >= inked.right_mm + 1 - 1e-9 ||
                         p.y <= inked.top_mm - 1 + 1e-9 || p.y >= inked.bottom_mm + 1 - 1e-9;
      EXPECT_TRUE(clear);
    }
  }
  EXPECT_EQ(lines, GetParam() > 0 ? 2 * (6 + 6) : 2 * (4 + 4));
}

INSTANTIATE_TEST_SUITE_P(Gutters, GuidesTest, testing::Values(0.0, 3.0));

class TicksTest : public testing::TestWithParam<double> {};

TEST_P(TicksTest, StandAtEveryStepBesideTheGuidesOfTheFirstTwoEdgesAndNowhereElse) {
  const CardGrid grid = centred_grid(kCard, 3, 3, 0);
  const PageRect area = printable_area(parse_paper("a4"), 5.0);
  const Reach bleed{0.5, 0.5};
  const CutPlan plan = plan_cuts(grid);
  const GuideTicks ticks{GetParam()};
  const auto lines_of = [&](GuideTicks t) {
    std::vector<Polyline> lines;
    for (const Shape& shape : cut_guides(grid, plan, area, bleed, t).drawing) {
      if (const auto* line = std::get_if<Polyline>(&shape)) lines.push_back(*line);
    }
    return lines;
  };
  const auto with = lines_of(ticks);
  const int steps = static_cast<int>(std::lround(ticks.reach_mm() / ticks.step_mm));
  // Two edges with a guide at both ends, ticks to both sides.
  EXPECT_EQ(with.size(), lines_of({}).size() + 4 * 2 * static_cast<std::size_t>(steps));
  // Edge 1 is the left one: x = -94.5 of a block of 189 mm; edge 2 the top: y = -132.
  for (int k = -steps; k <= steps; ++k) {
    for (const auto& [edge, vertical] : {std::pair{-94.5, true}, {-132.0, false}}) {
      const auto here = std::count_if(with.begin(), with.end(), [&](const Polyline& line) {
        const auto across = [&](const Point<PageMm>& p) { return vertical ? p.x : p.y; };
        return std::abs(across(line.points[0]) - edge - k * ticks.step_mm) < 1e-9 &&
               std::abs(across(line.points[1]) - edge - k * ticks.step_mm) < 1e-9;
      });
      EXPECT_EQ(here, 2) << k;
    }
  }
  const PageRect inked = recto_extent(grid, bleed);
  for (const Polyline& line : with) {
    for (const auto& p : line.points) {
      EXPECT_TRUE(p.x <= inked.left_mm - 1 + 1e-9 || p.x >= inked.right_mm + 1 - 1e-9 ||
                  p.y <= inked.top_mm - 1 + 1e-9 || p.y >= inked.bottom_mm + 1 - 1e-9);
      EXPECT_GE(p.x, area.left_mm);
      EXPECT_GE(p.y, area.top_mm);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Steps, TicksTest, testing::Values(0.1, 0.25));

TEST(Guides, SayWhenTheWasteIsTooNarrow) {
  const CardGrid grid = centred_grid(kCard, 3, 3, 0);
  const PageRect area = recto_extent(grid, {3.0, 0.5});  // nothing left above and below
  EXPECT_FALSE(cut_guides(grid, plan_cuts(grid), area, {}).complete);
}

}  // namespace
}  // namespace versolay
