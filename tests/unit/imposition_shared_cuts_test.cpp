#include <gmock/gmock.h>

#include <boost/math/distributions/normal.hpp>

#include "imposition/shared_cuts.h"
#include "profile/recommendation.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::nine_cards;
using testing::profile_of;

/// Shift left-right only, and so many sheets that its spread is known: sd 0.3 mm about its place.
PrinterProfile known_printer() {
  PrinterProfile profile = profile_of(eight_feeds());
  profile.mean = {};
  profile.mean_feeds = profile.n_feeds = 100000;
  profile.spread_dof = 99999;
  profile.mean_covariance.setZero();
  profile.spread_covariance.setZero();
  profile.spread_covariance(0, 0) = 0.3 * 0.3;
  profile.spread_covariance(1, 1) = 1e-10;
  profile.spread_covariance(2, 2) = 1e-10;
  profile.measurement_covariance.setZero();
  profile.field = {};
  return profile;
}

/// Cards of 63 x 88 mm in a row.
CardGrid row_of_cards(int columns, double gutter_mm) {
  return centred_grid({63, 88}, columns, 1, gutter_mm);
}

std::optional<SharedCuts> cuts_of(const PrinterProfile& profile, const CardGrid& grid,
                                  Reach oversize) {
  AdviceRequest request;
  request.grid = grid;
  return shared_cuts(profile, request, {},
                     verso_places(grid, turn_axis(profile.turn, profile.paper), oversize),
                     oversize);
}

/// P(X <= mm) of the printer.
double within(double mm) { return cdf(boost::math::normal(0.0, 0.3), mm); }

// By hand: of two cards with a gutter of 0.4 mm and an oversize of 0.6 mm, each is clean when the
// back moves towards its neighbour by no more than 0.6 mm (its outer edge then falls short), and
// away from it by no more than 0.2 mm.
TEST(SharedCuts, CountsEachEdgeByTheReachThatItHas) {
  const auto cuts = cuts_of(known_printer(), row_of_cards(2, 0.4), {0.6, 0.6});
  ASSERT_TRUE(cuts);
  const double one = within(0.6) - within(-0.2);
  EXPECT_NEAR(cuts->good.cards_per_sheet / 2, one, 0.005);
  EXPECT_NEAR(cuts->sure_share, one, 0.03);  // the populations differ by the sheets drawn of each
  EXPECT_LT(cuts->sure_share, one + 0.001);
  EXPECT_DOUBLE_EQ(cuts->reach_mm, 0.2);
  EXPECT_DOUBLE_EQ(cuts->gutter_needed_mm, 1.2);
}

// The middle one of three has neighbours on both sides.
TEST(SharedCuts, CardsInTheMiddleAreWorstOff) {
  const auto cuts = cuts_of(known_printer(), row_of_cards(3, 0.4), {0.6, 0.6});
  ASSERT_TRUE(cuts);
  const double outer = within(0.6) - within(-0.2);
  const double middle = within(0.2) - within(-0.2);
  EXPECT_NEAR(cuts->good.cards_per_sheet, 2 * outer + middle, 0.015);
}

TEST(SharedCuts, CardsThatTouchHaveNoReachAtAll) {
  const auto cuts = cuts_of(known_printer(), row_of_cards(2, 0.0), {0.6, 0.6});
  ASSERT_TRUE(cuts);
  EXPECT_NEAR(cuts->good.cards_per_sheet / 2, within(0.6) - 0.5, 0.005);
  EXPECT_DOUBLE_EQ(cuts->reach_mm, 0.0);
}

TEST(SharedCuts, NothingIsLostWhereTheGutterIsTwiceTheOversize) {
  EXPECT_FALSE(cuts_of(known_printer(), row_of_cards(2, 1.2), {0.6, 0.6}));
  EXPECT_FALSE(cuts_of(known_printer(), row_of_cards(1, 0.0), {0.6, 0.6}));
}

TEST(SharedCuts, OfAnAdviceArePicturesOnlyAndCountTheSheetsAnew) {
  const PrinterProfile profile = profile_of(eight_feeds());
  AdviceRequest request;
  request.grid = nine_cards();
  request.cards = 54;
  const Effort quick{.populations = 300, .sheets = 300, .threads = 0};
  for (const EdgeKind edge : {EdgeKind::white, EdgeKind::plain, EdgeKind::pattern}) {
    request.back_edge = edge;
    Advice advice = advise(profile, request, quick).value();
    add_shared_cuts(profile, advice);
    EXPECT_FALSE(advice.shared_cuts);
  }
  request.back_edge = EdgeKind::picture;
  Advice advice = advise(profile, request, quick).value();
  const auto before = advice.sheets_for_cards;
  add_shared_cuts(profile, advice);
  ASSERT_TRUE(advice.shared_cuts);
  EXPECT_LT(advice.shared_cuts->good.cards_per_sheet, advice.expected_good.cards_per_sheet);
  ASSERT_TRUE(before);
  EXPECT_TRUE(!advice.sheets_for_cards || *advice.sheets_for_cards > *before);
}

}  // namespace
}  // namespace versolay
