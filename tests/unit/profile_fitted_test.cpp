// Backs fitted to the fronts that are there.
#include <gmock/gmock.h>

#include "profile/fitted.h"
#include "profile/pass_components.h"
#include "profile/printing_ways.h"
#include "profile/recommendation.h"
#include "stats/random.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

constexpr double kPassMm = 0.2;  // of either pass
constexpr double kPassMrad = 0.5;
constexpr double kReadMm = 0.03;  // of the lay of a front, by its edges
constexpr double kReadMrad = 0.1;
const Registration kUsualFront{0.8, -0.4, 0.3};  // edges are read with a bias, too
const Registration kUsualBack{0.5, 0.2, -0.2};

struct SheetDrawn {
  Registration front;  // recto view
  Registration back;   // verso view
};

Registration drawn(const Registration& mean, double mm, double mrad, stats::Random& random) {
  return {mean.dx_mm + mm * random.normal(), mean.dy_mm + mm * random.normal(),
          mean.rotation_mrad + mrad * random.normal()};
}

SheetDrawn draw(stats::Random& random, double front_mm = kPassMm) {
  return {drawn(kUsualFront, front_mm, kPassMrad * front_mm / kPassMm, random),
          drawn(kUsualBack, kPassMm, kPassMrad, random)};
}

/// e = B - M F M, by the maps themselves.
Registration registration_of(const SheetDrawn& s, TurnAxis axis) {
  const auto front = relabel_affine<RectoMm, RectoMm>(s.front.landed_from_page());
  const auto seen = verso_from_recto(axis) * front * recto_from_verso(axis);
  return registration_from(seen.inverse() * s.back.landed_from_page());
}

PrintLay read(const Registration& front, stats::Random& random) {
  const Registration r = drawn(front, kReadMm, kReadMrad, random);
  PrintLay lay{r.dx_mm, r.dy_mm, r.rotation_mrad, 210, 297};
  lay.covariance.diagonal() << kReadMm * kReadMm, kReadMm * kReadMm, kReadMrad * kReadMrad;
  return lay;
}

Readings some_readings(int sheets, Turn turn, stats::Random& random, double front_mm = kPassMm) {
  Readings readings;
  readings.turn = turn;
  readings.paper = parse_paper("a4");
  readings.created = "2025-03-01T10:00:00Z";
  for (int i = 1; i <= sheets; ++i) {
    const SheetDrawn s = draw(random, front_mm);
    SheetReading sheet;
    sheet.sheet = i;
    sheet.run = "K7QF";
    sheet.model = RegistrationModel::rigid;
    Registration e = registration_of(s, turn_axis(turn, readings.paper));
    e.scale_x_ppm = e.scale_y_ppm = e.shear_mrad = 0;
    sheet.registration = e;
    sheet.recto_lay = read(s.front, random);
    readings.sheets.push_back(sheet);
  }
  return readings;
}

PrinterProfile profile_of(const Readings& readings) {
  return estimate_profile({{"readings.json", readings}}, testing::kLabels).value();
}

class FittedTest : public ::testing::TestWithParam<Turn> {};
INSTANTIATE_TEST_SUITE_P(Turns, FittedTest, ::testing::Values(Turn::long_edge, Turn::short_edge),
                         [](const auto& tested) {
                           return std::string(tested.param == Turn::long_edge ? "long" : "short");
                         });

// Both passes scatter equally: what remains is 1/sqrt(2) of the spread, and a little for reading
// the front.
TEST_P(FittedTest, WhatRemainsIsTheBackAndTheReading) {
  stats::Random random(1, 1);
  const PrinterProfile profile = profile_of(some_readings(400, GetParam(), random));
  const FittedBacks fitted = fitted_backs(profile).value();
  EXPECT_EQ(fitted.sheets, 400);
  for (int i = 0; i < 3; ++i) {
    const double pass = i < 2 ? kPassMm : kPassMrad;
    const double reading = i < 2 ? kReadMm : kReadMrad;
    EXPECT_NEAR(std::sqrt(fitted.profile.spread_covariance(i, i)), std::hypot(pass, reading),
                0.07 * pass);
    EXPECT_NEAR(std::sqrt(profile.spread_covariance(i, i)), std::sqrt(2.0) * pass, 0.1 * pass);
  }
}

// On sheets that the profile has not seen: expected() takes the front's part away.
TEST_P(FittedTest, ExpectsOfASheetWhatItsFrontMakesOfIt) {
  stats::Random random(2, 2);
  const Readings test_sheets = some_readings(400, GetParam(), random);
  const FittedBacks fitted = fitted_backs(profile_of(test_sheets)).value();
  const TurnAxis axis = turn_axis(GetParam(), parse_paper("a4"));
  RegistrationVector squares = RegistrationVector::Zero();
  RegistrationVector sum = RegistrationVector::Zero();
  constexpr int kSheets = 500;
  for (int i = 0; i < kSheets; ++i) {
    const SheetDrawn s = draw(random);
    const RegistrationVector left =
        registration_of(s, axis).vec() - fitted.expected(read(s.front, random)).vec();
    sum += left / kSheets;
    squares += left.cwiseAbs2() / kSheets;
  }
  for (int i = 0; i < 3; ++i) {
    const double pass = i < 2 ? kPassMm : kPassMrad;
    const double rms = std::sqrt(squares[i]);
    EXPECT_LT(rms, 0.75 * std::sqrt(2.0) * pass * 1.05);
    EXPECT_NEAR(rms, std::hypot(pass, i < 2 ? kReadMm : kReadMrad), 0.08 * pass);
    EXPECT_LT(std::abs(sum[i]), 0.15 * pass);  // two means of 400 and 500
  }
}

TEST(Fitted, FurtherPassesCountByTheirOwnFront) {
  // Two passes a side, without errors of reading: e + M F M is the back alone, for every pass.
  stats::Random random(3, 3);
  Readings readings = some_readings(0, Turn::long_edge, random);
  const TurnAxis axis = turn_axis(Turn::long_edge, readings.paper);
  for (int i = 1; i <= 6; ++i) {
    const Registration front = drawn(kUsualFront, 0.3, 0, random);
    const Registration further = drawn({}, 0.3, 0, random);
    const double back = 0.01 * i;
    SheetReading sheet;
    sheet.sheet = i;
    sheet.run = "K7QF";
    sheet.model = RegistrationModel::rigid;
    sheet.registration = Registration::from(-seen_from_back(front, axis));
    sheet.registration.dx_mm += back;
    sheet.registration.rotation_mrad = 0.01 * i;
    PrintLay lay{front.dx_mm, front.dy_mm, 0, 210, 297};
    sheet.recto_lay = lay;
    sheet.recto_passes = {{2, further, RegistrationMatrix::Zero()}};
    sheet.verso_passes = {{2, {0.005, 0, 0}, RegistrationMatrix::Zero()}};
    readings.sheets.push_back(sheet);
  }
  const FittedBacks fitted = fitted_backs(profile_of(readings)).value();
  for (const ProfileFeed& feed : fitted.profile.feeds) {
    const double back = 0.01 * feed.sheet + (feed.pass == 2 ? 0.005 : 0.0);
    EXPECT_NEAR(feed.registration.dx_mm - fitted.profile.feeds[0].registration.dx_mm, back - 0.01,
                2e-3);
    EXPECT_NEAR(feed.registration.dy_mm, fitted.profile.feeds[0].registration.dy_mm, 2e-3);
  }
}

TEST(Fitted, NeedsFrontsThatWereReadAgainstThePaper) {
  stats::Random random(4, 4);
  Readings readings = some_readings(6, Turn::long_edge, random);
  for (int i = 0; i < 3; ++i) readings.sheets[static_cast<std::size_t>(i)].recto_lay.reset();
  const Result<FittedBacks> fitted = fitted_backs(profile_of(readings));
  ASSERT_FALSE(fitted);
  EXPECT_EQ(fitted.refusal().code, "fronts_not_read");
}

AdviceRequest nine() {
  AdviceRequest request;
  request.grid = testing::nine_cards();
  return request;
}

TEST(Fitted, TheWaysToPrintStandSideBySide) {
  stats::Random random(5, 5);
  const PrinterProfile profile = profile_of(some_readings(30, Turn::long_edge, random));
  const Advice advice = advise(profile, nine()).value();
  const auto ways = printing_ways(profile, advice);
  ASSERT_EQ(ways.size(), 3u);
  EXPECT_EQ(ways[0].way, WayToPrint::as_printed);
  EXPECT_EQ(ways[2].way, WayToPrint::fitted);
  EXPECT_EQ(ways[1].oversize.x_mm, advice.oversize.x_mm);
  EXPECT_GT(ways[0].oversize.x_mm, ways[1].oversize.x_mm + 0.2);  // the mean is off by 0.6 mm
  EXPECT_LT(ways[2].oversize.x_mm, 0.85 * ways[1].oversize.x_mm);
  EXPECT_LT(ways[0].good.cards_per_sheet, ways[1].good.cards_per_sheet);
  EXPECT_GT(ways[2].good.cards_per_sheet, ways[1].good.cards_per_sheet);
}

// Fronts that always lie in the same place: reading them only adds to the error.
TEST(Fitted, DoesNotPayWhereTheFrontsHardlyScatter) {
  stats::Random random(6, 6);
  const PrinterProfile profile = profile_of(some_readings(200, Turn::long_edge, random, 0.005));
  const Advice advice = advise(profile, nine()).value();
  const auto ways = printing_ways(profile, advice);
  ASSERT_EQ(ways.size(), 3u);
  EXPECT_GT(ways[2].oversize.x_mm, 0.99 * ways[1].oversize.x_mm);
}

// For an image editor: the promise is kept with whole pixels and without turning.
TEST(EditorSettings, AreWholePixelsWithTheOversizeThatTheyCost) {
  stats::Random random(7, 7);
  PrinterProfile profile = profile_of(some_readings(30, Turn::long_edge, random));
  profile.mean = {.dx_mm = 0.43, .dy_mm = -0.30, .rotation_mrad = 2.0};
  const Advice advice = advise(profile, nine()).value();
  const EditorSettings editor = *editor_settings(profile, nine());
  EXPECT_EQ(editor.right_px, -5);  // 0.43 mm are 5.1 px at 300 ppi
  EXPECT_EQ(editor.down_px, 4);    // 0.30 mm are 3.5
  // Where nothing is turned, 2 mrad move the corner of a sheet of cards by 0.27 mm.
  EXPECT_GT(editor.oversize.x_mm, advice.oversize.x_mm + 0.05);
  EXPECT_EQ(editor.canvas_width_px, 744 + 2 * editor.oversize.x_px);
  EXPECT_EQ(editor.canvas_height_px, 1039 + 2 * editor.oversize.y_px);
}

}  // namespace
}  // namespace versolay
