#include <gmock/gmock.h>

#include <algorithm>

#include "profile/recommendation.h"
#include "support/findings.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using ::testing::HasSubstr;
using testing::kLabels;
using testing::nine_cards;
using testing::profile_of;
using testing::readings_of;
using testing::warns;

constexpr Effort kQuick{.populations = 600, .sheets = 400};

AdviceRequest request_for_nine_cards() {
  AdviceRequest request;
  request.grid = nine_cards();
  return request;
}

Advice advice_of(const std::vector<Registration>& feeds, const AdviceRequest& request) {
  return advise(profile_of(feeds), request, kQuick).value();
}

std::vector<Registration> first_feeds(std::size_t count) {
  std::vector<Registration> feeds = eight_feeds();
  feeds.resize(count);
  return feeds;
}

std::vector<Registration> without_mean(std::vector<Registration> feeds) {
  RegistrationVector mean = RegistrationVector::Zero();
  for (const Registration& r : feeds) mean += r.vec() / static_cast<double>(feeds.size());
  for (Registration& r : feeds) r = Registration::from(r.vec() - mean);
  return feeds;
}

TEST(Advise, MovesTheBackAgainstTheOffset) {
  // The back lands too far right and too far up, turned clockwise: move it left, down, turn it
  // anticlockwise.
  const Advice advice = advice_of(eight_feeds(), request_for_nine_cards());
  EXPECT_LT(advice.shift.dx_mm, 0.0);
  EXPECT_GT(advice.shift.dy_mm, 0.0);
  EXPECT_LT(advice.shift.rotation_mrad, 0.0);
  EXPECT_NEAR(advice.shift.dx_px, advice.shift.dx_mm * 300 / 25.4, 1e-12);
}

TEST(Advise, ArtworkMovedAsAdvisedLandsWhereItWasMeant) {
  const PrinterProfile profile = profile_of(eight_feeds());
  const BackShift shift = advise(profile, request_for_nine_cards(), kQuick).value().shift;
  const Registration moved{shift.dx_mm,       shift.dy_mm,       shift.rotation_mrad,
                           shift.scale_x_ppm, shift.scale_y_ppm, shift.shear_mrad};
  for (const Point<VersoMm>& wanted : {Point<VersoMm>{90, 130}, {-90, 20}, {0, 0}}) {
    const Point<VersoMm> landed = profile.mean.landed_from_page()(moved.landed_from_page()(wanted));
    EXPECT_NEAR(landed.x, wanted.x, 1e-9);
    EXPECT_NEAR(landed.y, wanted.y, 1e-9);
  }
}

TEST(Advise, RefusesAnOversizeFromLessThanFourSheets) {
  for (std::size_t count : {1U, 2U, 3U}) {
    const auto result = advise(profile_of(first_feeds(count)), request_for_nine_cards(), kQuick);
    ASSERT_FALSE(result.ok()) << count;
    EXPECT_EQ(result.refusal().code, "too_few_sheets");
    EXPECT_EQ(testing_support::fact<std::int64_t>(result.refusal(), "feeds"),
              static_cast<std::int64_t>(count));
  }
  EXPECT_TRUE(advise(profile_of(first_feeds(4)), request_for_nine_cards(), kQuick).ok());
}

TEST(Advise, CountsThePooledDegreesOfFreedomOfSmallSessions) {
  const std::vector<Registration> feeds = eight_feeds();
  const PrinterProfile profile =
      estimate_profile({{"a.json", readings_of({feeds[0], feeds[1]}, "AAAA")},
                        {"b.json", readings_of({feeds[2], feeds[3]}, "BBBB")},
                        {"c.json", readings_of({feeds[4], feeds[5]}, "CCCC")}},
                       kLabels)
          .value();
  EXPECT_EQ(profile.spread_dof, 3);
  EXPECT_TRUE(advise(profile, request_for_nine_cards(), kQuick).ok());
}

TEST(Advise, TellsWhatOneTwoAndFiveMoreSheetsWouldSave) {
  for (std::size_t count : {4U, 5U, 8U}) {
    const Advice few = advice_of(first_feeds(count), request_for_nine_cards());
    ASSERT_EQ(few.savings.size(), 3U) << count;
    double last = few.oversize.x_mm;
    for (const Saving& saving : few.savings) {
      EXPECT_LT(saving.oversize.x_mm, last);
      last = saving.oversize.x_mm;
    }
    EXPECT_EQ(few.savings.back().sheets, 5);
  }
}

TEST(Advise, OneMoreSheetBringsTheRatioOfTheToleranceFactors) {
  const Advice five = advice_of(first_feeds(5), request_for_nine_cards());
  // SOURCE  k(5) = 4.14246 at .95/.90 (table of exact factors); k(6) = 3.7225 from R (the integral
  // solved with integrate and uniroot). The oversize has more degrees of freedom than one of its
  // components, so it gains less; with a spread that is known, sqrt(1 + 1/n) would remain.
  const double ratio = five.savings[0].oversize.x_mm / five.oversize.x_mm;
  EXPECT_GT(ratio, 3.7225 / 4.14246);
  EXPECT_LT(ratio, std::sqrt((1 + 1. / 6) / (1 + 1. / 5)));
}

// Moving by a mean that may be luck still leaves less than not moving.
TEST(Advise, MovesByAMeanThatMayBeLuckAndSaysWhatItWouldTakeUnmoved) {
  std::vector<Registration> feeds = without_mean(eight_feeds());
  for (Registration& r : feeds) r.dx_mm += 0.08;  // not to be told from luck
  const Advice off = advice_of(feeds, request_for_nine_cards());
  EXPECT_EQ(off.no_shift, NoShift::none);
  EXPECT_NEAR(off.shift.dx_mm, -0.08, 0.01);
  EXPECT_LT(off.direction_sure, 0.90);
  EXPECT_GT(off.direction_sure, 0.50);
  ASSERT_TRUE(off.unmoved);
  EXPECT_GT(off.unmoved->x_mm, off.oversize.x_mm);
}

TEST(Advise, LeavesTheBackWhereTheOffsetIsSmallerThanOneStep) {
  std::vector<Registration> feeds = without_mean(eight_feeds());
  for (Registration& r : feeds) {
    r = Registration::from(r.vec() * 0.01);
    r.dx_mm += 0.02;  // real: 12 standard errors, and a quarter of a pixel
  }
  AdviceRequest request = request_for_nine_cards();
  EXPECT_EQ(advice_of(feeds, request).no_shift, NoShift::not_settable);
  request.ppi = 2400;
  EXPECT_TRUE(advice_of(feeds, request).shift_advised());
}

TEST(Advise, RoundsTheShiftToTheStepAndCoversTheRestByTheOversize) {
  AdviceRequest request = request_for_nine_cards();
  const double exact = advice_of(eight_feeds(), request).oversize.x_mm;
  request.step_mm = 0.5;
  const Advice coarse = advice_of(eight_feeds(), request);
  EXPECT_DOUBLE_EQ(coarse.shift.dx_mm, -0.5);
  EXPECT_DOUBLE_EQ(coarse.shift.dy_mm, 0.5);
  EXPECT_GT(coarse.oversize.x_mm, 1.02 * exact);
}

TEST(Advise, WithoutRotationTheOversizeCoversTheRotation) {
  AdviceRequest request = request_for_nine_cards();
  const double turned = advice_of(eight_feeds(), request).oversize.x_mm;
  request.can_rotate = false;
  const Advice straight = advice_of(eight_feeds(), request);
  EXPECT_EQ(straight.shift.rotation_mrad, 0.0);
  EXPECT_NEAR(straight.shift.dx_mm, -.34125, 1e-9);
  EXPECT_GT(straight.oversize.x_mm, 1.02 * turned);
}

TEST(Advise, PixelsAreRoundedUpPerSideAndTheTotalIsTwice) {
  const Advice advice = advice_of(eight_feeds(), request_for_nine_cards());
  EXPECT_GE(advice.oversize.x_px, advice.oversize.x_mm * 300 / 25.4);
  EXPECT_LT(advice.oversize.x_px, advice.oversize.x_mm * 300 / 25.4 + 1);
  EXPECT_EQ(advice.total_width_px, 2 * advice.oversize.x_px);
  EXPECT_EQ(advice.total_height_px, 2 * advice.oversize.y_px);
}

TEST(Advise, ProportionalGrowthKeepsTheShapeOfTheCard) {
  AdviceRequest request = request_for_nine_cards();
  request.growth = Growth::proportional;
  const Advice advice = advice_of(eight_feeds(), request);
  EXPECT_NEAR(advice.oversize.x_mm / advice.oversize.y_mm, 63.0 / 88.0, 1e-9);
}

TEST(Advise, OnASheetTurnedTheOtherWayTheCellsAreThoseOfTheBack) {
  // One card in the lower right corner of the front. Turned on the long edge of a portrait page it
  // is at the lower left of the back, turned on the short edge at the upper right.
  AdviceRequest request = request_for_nine_cards();
  request.grid.cells = {{2, 2, {60.0, 100.0}}};
  PrinterProfile profile = profile_of(eight_feeds());
  EXPECT_EQ(future_cards(profile, request, {}).cards.centres[0], (Point<VersoMm>{-60.0, 100.0}));
  profile.turn = Turn::short_edge;
  EXPECT_EQ(future_cards(profile, request, {}).cards.centres[0], (Point<VersoMm>{60.0, -100.0}));
}

TEST(Advise, TakesTheSpreadToBeThatOfTheMeasurementWhereAllReadingsAreEqual) {
  Readings readings = readings_of(eight_feeds());
  for (SheetReading& s : readings.sheets) {
    s.registration.dy_mm = 0.1;
    s.covariance(1, 1) = 0.0025;
  }
  const PrinterProfile profile = estimate_profile({{"a.json", readings}}, kLabels).value();
  const Advice advice = advise(profile, request_for_nine_cards(), kQuick).value();
  EXPECT_TRUE(warns(advice, "spread_floored"));
  EXPECT_DOUBLE_EQ(future_cards(profile, request_for_nine_cards(), {}).feeds.scatter(1, 1),
                   7 * 0.0025);
}

TEST(Advise, CountsAComponentWithoutSpreadAndUncertaintyAsWellAsAScannerReads) {
  std::vector<Registration> only_dx;
  for (const Registration& r : eight_feeds()) only_dx.push_back({r.dx_mm, 0.0, 0.0});
  const Advice advice = advice_of(only_dx, request_for_nine_cards());
  EXPECT_TRUE(warns(advice, "spread_floored"));
  EXPECT_NEAR(advice.shift.dx_mm, -.34125, 1e-9);
  // SOURCE  one dimension: sd of the eight values times k(8, .95, .90) = 3.26988; the other
  // components add hardly anything to it.
  EXPECT_NEAR(advice.oversize.x_mm, .18451 * 3.26988, 0.04);
}

TEST(Advise, RefusesReadingsWithoutSpreadAndWithoutUncertainty) {
  const std::vector<Registration> copies(8, Registration{.3, .2, .1});
  const auto result = advise(profile_of(copies), request_for_nine_cards(), kQuick);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.refusal().code, "no_spread");
}

TEST(Advise, DoesNotSubtractAMeasurementThatHidesThePrinter) {
  Readings readings = readings_of(eight_feeds());
  const auto with_variance = [&](double share) {
    const PrinterProfile plain = profile_of(eight_feeds());
    for (SheetReading& s : readings.sheets) {
      s.covariance = plain.spread_covariance * share;
    }
    return advise(estimate_profile({{"a.json", readings}}, kLabels).value(),
                  request_for_nine_cards(), kQuick)
        .value();
  };
  const double plain = advice_of(eight_feeds(), request_for_nine_cards()).oversize.x_mm;
  const Advice half = with_variance(0.5);
  EXPECT_LT(half.oversize.x_mm, 0.95 * plain);
  const Advice hidden = with_variance(0.9);
  EXPECT_TRUE(warns(hidden, "printer_not_resolved"));
  EXPECT_DOUBLE_EQ(hidden.oversize.x_mm, plain);
}

TEST(Advise, PlansTheJobByTheSheet) {
  AdviceRequest request = request_for_nine_cards();
  request.cards = 54;
  const Advice advice = advice_of(eight_feeds(), request);
  EXPECT_EQ(advice.sheets_needed, 6);
  ASSERT_TRUE(advice.sheets_to_print);
  EXPECT_GT(*advice.sheets_to_print, 6);
  request.cards = 55;
  EXPECT_EQ(advice_of(eight_feeds(), request).sheets_needed, 7);
}

TEST(Advise, CentringOfABorderFollowsTheDisplacement) {
  AdviceRequest request = request_for_nine_cards();
  request.border_mm = 3.0;
  const Advice advice = advice_of(eight_feeds(), request);
  ASSERT_TRUE(advice.centring);
  // share = 50 (1 + d / border), d the same bound as that of the equal oversize.
  EXPECT_NEAR(advice.centring->worst_percent, 50 * (1 + advice.oversize.x_mm / 3.0), 1.0);
  EXPECT_GT(advice.centring->typical_percent, 50.0);
  EXPECT_LT(advice.centring->typical_percent, advice.centring->worst_percent);
}

TEST(Advise, GivesTheSameAnswerOnAnyNumberOfThreads) {
  const PrinterProfile profile = profile_of(eight_feeds());
  AdviceRequest request = request_for_nine_cards();
  request.cards = 54;
  request.border_mm = 3.0;
  request.growth = Growth::per_axis;
  const Advice one =
      advise(profile, request, {.populations = 600, .sheets = 400, .threads = 1}).value();
  const Advice three =
      advise(profile, request, {.populations = 600, .sheets = 400, .threads = 3}).value();
  EXPECT_EQ(one.oversize.x_mm, three.oversize.x_mm);
  EXPECT_EQ(one.oversize.y_mm, three.oversize.y_mm);
  EXPECT_EQ(one.expected_good.low, three.expected_good.low);
  EXPECT_EQ(one.sheets_to_print, three.sheets_to_print);
  EXPECT_EQ(one.centring->worst_percent, three.centring->worst_percent);
}

TEST(Advise, NamesTheOptionThatIsOutOfRange) {
  const auto error_of = [](auto change) -> std::string {
    AdviceRequest request = request_for_nine_cards();
    change(request);
    try {
      validate(request);
    } catch (const Error& e) {
      return e.what();
    }
    return "";
  };
  EXPECT_EQ(error_of([](AdviceRequest&) {}), "");
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.coverage = 95; }),
              HasSubstr("coverage: out_of_range value=95"));
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.confidence = 1.0; }), HasSubstr("confidence"));
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.ppi = 0; }), HasSubstr("ppi"));
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.step_mm = -1; }), HasSubstr("step_mm"));
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.cards = 0; }), HasSubstr("cards"));
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.border_mm = 0.0; }), HasSubstr("border_mm"));
  EXPECT_THAT(error_of([](AdviceRequest& r) { r.grid.cells.clear(); }), HasSubstr("grid"));
}

}  // namespace
}  // namespace versolay
