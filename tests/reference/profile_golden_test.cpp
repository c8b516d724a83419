// The whole chain, readings to oversize, against numbers computed by another program.
#include <gmock/gmock.h>

#include "profile/advice_tables.h"
#include "profile/estimate.h"
#include "profile/profile_json.h"
#include "profile/recommendation.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::nine_cards;
using testing::profile_of;

TEST(EightFeeds, HaveTheMeanAndTheT2OfTheReference) {
  const PrinterProfile profile = profile_of(eight_feeds());
  EXPECT_NEAR(profile.mean.dx_mm, .34125, 1e-12);
  EXPECT_NEAR(profile.mean.dy_mm, -.3675, 1e-12);
  EXPECT_NEAR(profile.mean.rotation_mrad, .95, 1e-12);
  ASSERT_FALSE(profile.tests.empty());
  EXPECT_NEAR(profile.tests.front().statistic, 112.7809024, 1e-6);
  EXPECT_TRUE(profile.constant_part_real);
}

struct Case {
  CountBy count;
  Growth growth;
  double coverage;
  double x_mm, y_mm;  // SOURCE  golden_oversize.py beside this file (NumPy, SciPy), +-0.5 %
};

class EightFeedsOversize : public ::testing::TestWithParam<Case> {};

TEST_P(EightFeedsOversize, IsThatOfTheReference) {
  const Case& c = GetParam();
  AdviceRequest request;
  request.grid = nine_cards();
  request.count = c.count;
  request.growth = c.growth;
  request.coverage = c.coverage;
  request.confidence = .90;
  const Advice advice = advise(profile_of(eight_feeds()), request).value();
  EXPECT_NEAR(advice.oversize.x_mm / c.x_mm, 1.0, 0.02);
  EXPECT_NEAR(advice.oversize.y_mm / c.y_mm, 1.0, 0.02);
  EXPECT_NEAR(advice.shift.dx_mm, -.34125, 0.001);
  EXPECT_NEAR(advice.shift.dy_mm, .3675, 0.001);
  EXPECT_NEAR(advice.shift.rotation_mrad, -.95, 0.001);
}

// Derived again when the bound became the plug-in quantile times k(n, f_eff) / z: the fiducial
// bound of before (.872 for the first) was wider than its promise needs, by what golden_oversize.py
// and tests/bench/README.md show.
INSTANTIATE_TEST_SUITE_P(
    AllPromises, EightFeedsOversize,
    ::testing::Values(Case{CountBy::card, Growth::equal, .95, 0.7745, 0.7745},
                      Case{CountBy::card, Growth::per_axis, .95, 0.9361, 0.7676},
                      Case{CountBy::card, Growth::proportional, .95, 0.7902, 1.1037},
                      Case{CountBy::card, Growth::equal, .99, 1.0844, 1.0844},
                      Case{CountBy::card, Growth::per_axis, .99, 1.2413, 0.98},
                      Case{CountBy::sheet, Growth::equal, .95, 0.9601, 0.9601},
                      Case{CountBy::sheet, Growth::per_axis, .95, 1.1214, 0.8629},
                      Case{CountBy::sheet, Growth::equal, .99, 1.283, 1.283},
                      Case{CountBy::sheet, Growth::per_axis, .99, 1.4101, 1.081}));

TEST(EightFeeds, GiveTheGoodCardsPerSheetOfTheReference) {
  AdviceRequest request;
  request.grid = nine_cards();
  const PrinterProfile profile = profile_of(eight_feeds());
  const stats::FutureCards future = future_cards(profile, request, profile.mean);
  const stats::MonteCarlo mc{.populations = 4000, .sheets = 500, .seed = 5};
  // SOURCE  as above: 7.84 of 9 [6.07, 8.82] at 0.5 mm; 8.76 [8.00, 9.00] at 0.8 mm.
  const ExpectedGood half = expected_good(stats::yield_of(future, {.5, .5}, mc), 9);
  EXPECT_NEAR(half.cards_per_sheet, 7.84, 0.05);
  EXPECT_NEAR(half.low, 6.07, 0.15);
  EXPECT_NEAR(half.high, 8.82, 0.05);
  const ExpectedGood more = expected_good(stats::yield_of(future, {.8, .8}, mc), 9);
  EXPECT_NEAR(more.cards_per_sheet, 8.76, 0.03);
  EXPECT_NEAR(more.low, 8.00, 0.1);
  EXPECT_NEAR(more.high, 9.00, 0.01);
}

TEST(EightFeeds, GiveTheSameAdviceAfterAJourneyThroughTheFile) {
  AdviceRequest request;
  request.grid = nine_cards();
  const PrinterProfile profile = profile_of(eight_feeds());
  const PrinterProfile reread = profile_from(json_of(profile), "P.json");
  const Advice direct = advise(profile, request).value();
  const Advice from_file = advise(reread, request).value();
  EXPECT_NEAR(from_file.oversize.x_mm, direct.oversize.x_mm, 1e-5);
  EXPECT_NEAR(from_file.shift.dx_mm, direct.shift.dx_mm, 1e-6);
}

}  // namespace
}  // namespace versolay
