#include <gmock/gmock.h>

#include "core/numbers.h"
#include "profile/advice_tables.h"
#include "profile/recommendation.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::kLabels;
using testing::nine_cards;
using testing::profile_of;
using testing::readings_of;

constexpr Effort kQuick{.populations = 600, .sheets = 400};

AdviceRequest request_for_nine_cards() {
  AdviceRequest request;
  request.grid = nine_cards();
  return request;
}

const Advice& advice_for_eight_feeds() {
  static const Advice advice =
      advise(profile_of(eight_feeds()), request_for_nine_cards(), kQuick).value();
  return advice;
}

TEST(Advise, KeepsTheRotationButNotTheScaleWhereTheUserCannotScale) {
  Readings readings = readings_of(eight_feeds());
  for (std::size_t i = 0; i < readings.sheets.size(); ++i) {
    SheetReading& s = readings.sheets[i];
    s.model = RegistrationModel::affine;
    s.registration.scale_x_ppm = 900.0 + 10.0 * static_cast<double>(i);
    s.registration.scale_y_ppm = 300.0 - 9.0 * static_cast<double>(i % 3);
    s.registration.shear_mrad = 0.1 * static_cast<double>(i % 2);
  }
  const PrinterProfile profile = estimate_profile({{"a.json", readings}}, kLabels).value();
  AdviceRequest request = request_for_nine_cards();
  const Advice all = advise(profile, request, kQuick).value();
  EXPECT_LT(all.shift.scale_x_ppm, -800.0);
  request.can_scale = false;
  const Advice some = advise(profile, request, kQuick).value();
  EXPECT_NEAR(some.shift.shear_mrad, 0.0, 1e-9);
  EXPECT_NEAR(some.shift.scale_x_ppm, 0.0, 2.0);  // the inverse of a rotation: second order
  EXPECT_NEAR(some.shift.rotation_mrad, all.shift.rotation_mrad, 0.01);
  EXPECT_GT(some.oversize.x_mm, all.oversize.x_mm);
}

TEST(AdviceTables, CompareWithTheEnlargementOfTodayOnlyWhereItIsStated) {
  EXPECT_FALSE(advice_for_eight_feeds().by_hand);
  AdviceRequest request = request_for_nine_cards();
  request.today_mm = 16 * kMmPerInch / 300;  // 16 px in all, 8 px or 0.677 mm a side
  const Advice advice = advise(profile_of(eight_feeds()), request, kQuick).value();
  ASSERT_TRUE(advice.by_hand);
  EXPECT_LT(advice.by_hand->as_printed.cards_per_sheet, advice.by_hand->moved.cards_per_sheet);
  // SOURCE  the reference of the eight feeds: 7.84 of 9 at 0.5 mm, 8.76 at 0.8 mm.
  EXPECT_GT(advice.by_hand->moved.cards_per_sheet, 7.84);
  EXPECT_LT(advice.by_hand->moved.cards_per_sheet, 8.76);
}

TEST(AdviceTables, TheYieldCurveRisesThroughTheExpectedGoodAndTheCellsAverageToIt) {
  const Advice& advice = advice_for_eight_feeds();
  double last = -1.0;
  for (const YieldPoint& y : advice.curve) {
    EXPECT_GE(y.good.cards_per_sheet, last);
    EXPECT_LE(y.good.low, y.good.high);
    if (y.share_of_advised == 1.0) {
      EXPECT_EQ(y.good.cards_per_sheet, advice.expected_good.cards_per_sheet);
      EXPECT_EQ(y.oversize.x_px, advice.oversize.x_px);
    }
    last = y.good.cards_per_sheet;
  }
  ASSERT_EQ(advice.cells.size(), 9U);
  double sum = 0.0;
  for (const CellAdvice& c : advice.cells) sum += c.good_percent / 100;
  EXPECT_NEAR(sum, advice.expected_good.cards_per_sheet, 1e-6);
}

TEST(Advise, PrintsTheHeavyTailFigureBesideAHighCoverageOrDoubtfulFeedsOnly) {
  EXPECT_FALSE(advice_for_eight_feeds().heavy_tails);
  AdviceRequest request = request_for_nine_cards();
  request.coverage = 0.99;
  const Advice high = advise(profile_of(eight_feeds()), request, kQuick).value();
  ASSERT_TRUE(high.heavy_tails);
  EXPECT_GT(high.heavy_tails->x_mm, 1.3 * high.oversize.x_mm);
  PrinterProfile profile = profile_of(eight_feeds());
  profile.heavy_tails = true;
  EXPECT_TRUE(advise(profile, request_for_nine_cards(), kQuick).value().heavy_tails);
}

TEST(ScaledBorder, GrowsWithThePictureAndLosesTheOversizeToTheCut) {
  // SOURCE  by hand: a card of 63 mm, oversize 0.63 mm: the picture becomes 1.02 times as large.
  EXPECT_NEAR(scaled_border_mm(3.0, 0.63, 63.0), 3.0 * 1.02 - 0.63, 1e-12);
  EXPECT_EQ(scaled_border_mm(0.5, 2.0, 63.0), 0.0);
}

TEST(Advise, GivesTheFigureWithTheMisfeedsBesideTheOneWithout) {
  std::vector<Registration> feeds = eight_feeds();
  feeds.push_back({.4 + 3.0, -.3, 1.0});
  const Advice advice = advise(profile_of(feeds), request_for_nine_cards(), kQuick).value();
  ASSERT_TRUE(advice.with_misfeeds);
  EXPECT_GT(advice.with_misfeeds->x_mm, 2 * advice.oversize.x_mm);
  // SOURCE  Clopper & Pearson, one-sided 90 %, 1 of 9: R qbeta(.9, 2, 8) = 0.368390.
  EXPECT_NEAR(advice.holds_for.misfeed_share_high, 0.36839, 1e-4);
}

TEST(Advise, CoversTheResidualFieldCellByCell) {
  PrinterProfile profile = profile_of(eight_feeds());
  const double flat = advise(profile, request_for_nine_cards(), kQuick).value().oversize.x_mm;
  profile.field.real = true;
  profile.field.amplitude_mm = 0.3;
  profile.field.length_mm = 90;
  for (const auto& [x, y] : {std::pair{-90., -130.},
                             {90., -130.},
                             {-90., 130.},
                             {90., 130.},
                             {0., -135.},
                             {0., 135.},
                             {-95., 0.},
                             {95., 0.}}) {
    profile.field.points.push_back({"", {x, y}, {0.0, y > 100 ? 1.2 : 0.0}, 0.01, 8});
  }
  const Advice bent = advise(profile, request_for_nine_cards(), kQuick).value();
  EXPECT_GT(bent.oversize.x_mm, flat + 0.1);
  EXPECT_GT(bent.cells[7].field_mm.y(), 0.2);            // bottom row, in the middle
  EXPECT_LT(std::abs(bent.cells[1].field_mm.y()), 0.2);  // top row
}

TEST(Advise, WorksForEighteenCardsInTwoBlocksWithGutters) {
  AdviceRequest request = request_for_nine_cards();
  request.grid.cells.clear();
  for (int block = 0; block < 2; ++block) {
    for (int row = 0; row < 3; ++row) {
      for (int column = 0; column < 3; ++column) {
        request.grid.cells.push_back({3 * block + row,
                                      column,
                                      {(column - 1) * 66.0, (row - 1) * 91.0 + (block - 0.5) * 280},
                                      block});
      }
    }
  }
  PrinterProfile profile = profile_of(eight_feeds());
  profile.paper = parse_paper("a3");
  const Advice advice = advise(profile, request, kQuick).value();
  EXPECT_EQ(advice.cells.size(), 18U);
  EXPECT_EQ(advice.expected_good.cells, 18);
  EXPECT_GT(advice.oversize.x_mm, advice_for_eight_feeds().oversize.x_mm);
}

}  // namespace
}  // namespace versolay
