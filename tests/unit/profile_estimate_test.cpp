#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "profile/estimate.h"
#include "profile/findings.h"
#include "support/findings.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using ::testing::HasSubstr;
using testing::kLabels;
using testing::profile_of;
using testing::readings_of;
using testing::warns;

/// No code: it was not refused.
Finding refusal_of(std::vector<ReadingSession> sessions) {
  const auto result = estimate_profile(std::move(sessions), kLabels);
  return result.ok() ? Finding() : result.refusal();
}

TEST(EstimateProfile, RefusesNoFilesAndFilesWithoutSheets) {
  EXPECT_EQ(refusal_of({}), findings::no_readings_given());
  EXPECT_EQ(refusal_of({{"empty.json", readings_of({})}}),
            findings::nothing_was_read("empty.json"));
}

TEST(EstimateProfile, RefusesADifferentTurnOrPaperAndNamesBothFiles) {
  Readings other = readings_of(eight_feeds(), "ABCD");
  other.turn = Turn::short_edge;
  EXPECT_EQ(refusal_of({{"a.json", readings_of(eight_feeds())}, {"b.json", other}}),
            findings::mixed_setups("a.json", "a4", Term{"long-edge"}, "b.json", "a4",
                                   Term{"short-edge"}));
  other.turn = Turn::long_edge;
  other.paper = parse_paper("letter");
  EXPECT_EQ(refusal_of({{"a.json", readings_of(eight_feeds())}, {"b.json", other}}),
            findings::mixed_setups("a.json", "a4", Term{"long-edge"}, "b.json", "letter",
                                   Term{"long-edge"}));
}

TEST(EstimateProfile, RefusesTheSameSheetTwice) {
  Readings twice = readings_of(eight_feeds());
  twice.sheets[5].sheet = twice.sheets[2].sheet;
  EXPECT_EQ(refusal_of({{"a.json", twice}}), findings::sheet_twice_in_a_file("a.json", 3));
  EXPECT_EQ(
      refusal_of({{"a.json", readings_of(eight_feeds())}, {"b.json", readings_of(eight_feeds())}}),
      findings::sheet_in_two_files("a.json", 1, "K7QF", "b.json"));
}

TEST(EstimateProfile, AcceptsEqualSheetNumbersOfDifferentRuns) {
  EXPECT_EQ(refusal_of({{"a.json", readings_of(eight_feeds(), "AAAA")},
                        {"b.json", readings_of(eight_feeds(), "BBBB")}}),
            Finding());
  EXPECT_EQ(refusal_of({{"a.json", readings_of(eight_feeds(), "")},
                        {"b.json", readings_of(eight_feeds(), "")}}),
            Finding());
}

TEST(EstimateProfile, OfOneSheetIsItsReadingWithoutASpread) {
  const PrinterProfile profile = profile_of({{.42, -.31, 1.2}});
  EXPECT_EQ(profile.mean, (Registration{.42, -.31, 1.2}));
  EXPECT_EQ(profile.n_feeds, 1);
  EXPECT_EQ(profile.spread_dof, 0);
  EXPECT_TRUE(profile.spread_covariance.isZero(0.0));
  EXPECT_TRUE(warns(profile, "spread_unknown"));
}

TEST(EstimateProfile, TurnedSheetsTurnTheEstimate) {
  // The same feeds described on a page turned by half a turn: offsets change sign, rotation not.
  std::vector<Registration> turned = eight_feeds();
  for (Registration& r : turned) {
    r.dx_mm = -r.dx_mm;
    r.dy_mm = -r.dy_mm;
  }
  const PrinterProfile a = profile_of(eight_feeds());
  const PrinterProfile b = profile_of(turned);
  EXPECT_DOUBLE_EQ(a.mean.dx_mm, -b.mean.dx_mm);
  EXPECT_DOUBLE_EQ(a.mean.rotation_mrad, b.mean.rotation_mrad);
  EXPECT_DOUBLE_EQ(a.spread_covariance(0, 1), b.spread_covariance(0, 1));
  EXPECT_DOUBLE_EQ(a.spread_covariance(0, 2), -b.spread_covariance(0, 2));
}

TEST(EstimateProfile, DoesNotCallLuckAConstantPart) {
  std::vector<Registration> centred = eight_feeds();
  for (Registration& r : centred) {
    r.dx_mm -= .34125;
    r.dy_mm += .3675;
    r.rotation_mrad -= .95;
  }
  EXPECT_FALSE(profile_of(centred).constant_part_real);
  EXPECT_TRUE(profile_of(eight_feeds()).constant_part_real);
}

TEST(EstimateProfile, TwoOrThreeSheetsDoNotProveAConstantPart) {
  // Fewer degrees of freedom than components: every mean sticks out of what was seen to vary.
  for (std::size_t count : {2U, 3U}) {
    std::vector<Registration> feeds = eight_feeds();
    feeds.resize(count);
    EXPECT_FALSE(profile_of(feeds).constant_part_real) << count;
  }
}

TEST(EstimateProfile, PointsToASheetThatStandsOutOnlyWhenAllIsLookedAtTogether) {
  // dx and rotation go together on this printer: a sheet far right that is turned the other way.
  std::vector<Registration> feeds;
  for (int i = 0; i < 12; ++i) {
    const double along = -.3 + .05 * i;
    feeds.push_back({along, .1 * std::sin(2.0 * i), 4 * along + .04 * std::cos(3.0 * i)});
  }
  EXPECT_FALSE(warns(profile_of(feeds), "sheet_stands_out_together"));
  feeds[10] = {.20, .05, -.8};
  const PrinterProfile profile = profile_of(feeds);
  EXPECT_TRUE(warns(profile, "sheet_stands_out_together"));
  EXPECT_GT(profile.feeds[10].robust_distance, profile.robust_limit);
  EXPECT_EQ(profile.n_feeds, 12);  // it counts: a diagnostic leaves nothing out
}

TEST(EstimateProfile, SeesALargeOffsetEvenWithFiveSheets) {
  const PrinterProfile profile = profile_of(
      {{.61, .02, .1}, {.52, -.07, -.4}, {.70, .09, .3}, {.58, .04, .2}, {.55, -.06, 0}});
  EXPECT_TRUE(profile.constant_part_real);
}

TEST(EstimateProfile, UsesOnlyWhatAllSheetsTell) {
  Readings readings = readings_of(eight_feeds());
  for (std::size_t i = 0; i < readings.sheets.size(); ++i) {
    SheetReading& s = readings.sheets[i];
    s.model = RegistrationModel::affine;
    s.registration.scale_x_ppm = 100.0 + 10.0 * static_cast<double>(i);
    s.registration.scale_y_ppm = 300.0 - 5.0 * static_cast<double>(i * i);
    s.registration.shear_mrad = 0.1 * static_cast<double>(i % 3);
    s.covariance(3, 3) = 100.0;
  }
  const auto estimate = [&] { return estimate_profile({{"a.json", readings}}, kLabels).value(); };
  EXPECT_EQ(estimate().model, RegistrationModel::affine);
  EXPECT_GT(estimate().mean.shear_mrad, 0.0);

  readings.sheets[4].model = RegistrationModel::similarity;
  const PrinterProfile similar = estimate();
  EXPECT_EQ(similar.model, RegistrationModel::similarity);
  EXPECT_EQ(similar.mean.shear_mrad, 0.0);
  EXPECT_DOUBLE_EQ(similar.mean.scale_x_ppm, similar.mean.scale_y_ppm);
  EXPECT_DOUBLE_EQ(similar.measurement_covariance(3, 4), 25.0);
  EXPECT_TRUE(warns(similar, "mixed_models"));

  readings.sheets[4].model = RegistrationModel::rigid;
  const PrinterProfile rigid = estimate();
  EXPECT_EQ(rigid.mean.scale_x_ppm, 0.0);
  EXPECT_TRUE(rigid.spread_covariance.bottomRightCorner(3, 3).isZero(0.0));
}

TEST(EstimateProfile, PoolsSessionsThatAgree) {
  std::vector<Registration> later = eight_feeds();
  std::reverse(later.begin(), later.end());
  for (Registration& r : later) r.dx_mm += 0.02;
  const PrinterProfile profile = estimate_profile({{"a.json", readings_of(eight_feeds(), "AAAA")},
                                                   {"b.json", readings_of(later, "BBBB")}},
                                                  kLabels)
                                     .value();
  EXPECT_EQ(profile.n_feeds, 16);
  EXPECT_EQ(profile.spread_dof, 14);
  EXPECT_EQ(profile.mean_feeds, 16);
  EXPECT_NEAR(profile.mean.dx_mm, .34125 + .01, 1e-12);
  EXPECT_FALSE(warns(profile, "sessions_differ"));
}

TEST(EstimateProfile, TakesTheMeanOfTheNewestSessionWhenTheSetUpMoved) {
  std::vector<Registration> later = eight_feeds();
  for (Registration& r : later) r.dx_mm += 1.0;
  Readings newer = readings_of(later, "BBBB");
  newer.created = "2025-06-01T10:00:00Z";
  const PrinterProfile profile =
      estimate_profile({{"newer.json", newer}, {"older.json", readings_of(eight_feeds(), "AAAA")}},
                       kLabels)
          .value();
  EXPECT_TRUE(warns(profile, "sessions_differ"));
  EXPECT_NEAR(profile.mean.dx_mm, 1.34125, 1e-12);
  EXPECT_EQ(profile.mean_feeds, 8);
  EXPECT_EQ(profile.spread_dof, 14);
  EXPECT_EQ(profile.sessions.back().source, "newer.json");
  EXPECT_TRUE(profile.spread_covariance.isApprox(profile_of(eight_feeds()).spread_covariance));
}

TEST(EstimateProfile, WarnsWhenTheMeasurementIsCoarse) {
  Readings readings = readings_of(eight_feeds());
  for (SheetReading& s : readings.sheets) s.covariance(1, 1) = 0.01;  // 0.1 mm
  const PrinterProfile profile = estimate_profile({{"a.json", readings}}, kLabels).value();
  EXPECT_TRUE(warns(profile, "coarse_measurement"));
  EXPECT_DOUBLE_EQ(profile.measurement_covariance(1, 1), 0.01);
}

TEST(EstimateProfile, WarnsWhenAComponentNeverVaries) {
  std::vector<Registration> coarse = eight_feeds();
  for (Registration& r : coarse) r.dy_mm = 0.1;
  const PrinterProfile profile = profile_of(coarse);
  EXPECT_TRUE(warns(profile, "no_spread"));
  EXPECT_EQ(profile.spread_covariance(1, 1), 0.0);
  EXPECT_EQ(profile.spread_covariance(0, 1), 0.0);
}

}  // namespace
}  // namespace versolay
