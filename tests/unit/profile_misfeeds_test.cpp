// Sheets left out, sessions, the residual field, normality: what surrounds the plain estimate.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "profile/estimate.h"
#include "profile/findings.h"
#include "profile/residual_field.h"
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

std::vector<Registration> with_a_misfeed() {
  std::vector<Registration> feeds = eight_feeds();
  feeds[3].dx_mm += 3.0;
  return feeds;
}

TEST(Misfeeds, GrossOnesAreLeftOutReportedAndReversible) {
  const PrinterProfile profile = profile_of(with_a_misfeed());
  EXPECT_EQ(profile.n_feeds, 7);
  EXPECT_EQ(profile.n_sheets, 8);
  ASSERT_EQ(profile.excluded.size(), 1U);
  EXPECT_EQ(profile.excluded[0].sheet, 4);
  EXPECT_EQ(profile.excluded[0].why.code, "misfeed");
  EXPECT_EQ(testing_support::fact(profile.excluded[0].why, "way"), "right");
  EXPECT_TRUE(warns(profile, "misfeed_left_out"));
  EXPECT_GT(profile.spread_with_left_out(0, 0), 5 * profile.spread_covariance(0, 0));

  const PrinterProfile kept = estimate_profile({{"a.json", readings_of(with_a_misfeed())}}, kLabels,
                                               {.keep_misfeeds = true, .leave_out = {}})
                                  .value();
  EXPECT_EQ(kept.n_feeds, 8);
  EXPECT_TRUE(warns(kept, "misfeed_kept"));
}

TEST(Misfeeds, ASmallOutlierIsRemarkedOnAndCounts) {
  std::vector<Registration> feeds;
  for (int i = 0; i < 10; ++i) {
    feeds.push_back({.3 + .01 * (i % 4), .1 + .01 * (i % 3), .1 * (i % 2)});
  }
  feeds[6].dx_mm += 0.4;
  const PrinterProfile profile = profile_of(feeds);
  EXPECT_EQ(profile.n_feeds, 10);
  EXPECT_TRUE(warns(profile, "sheet_stands_out"));
}

TEST(Exclude, LeavesOutWhatTheUserNamesWithTheReason) {
  const std::vector<ReadingSession> two = {{"a.json", readings_of(eight_feeds(), "AAAA")},
                                           {"b.json", readings_of(eight_feeds(), "BBBB")}};
  const auto excluding = [&](int sheet, const std::string& source) {
    return estimate_profile(two, kLabels,
                            {.keep_misfeeds = false, .leave_out = {{sheet, source, "damp"}}});
  };
  const PrinterProfile profile = excluding(2, "b.json").value();
  EXPECT_EQ(profile.n_feeds, 15);
  EXPECT_EQ(profile.spread_dof, 13);
  EXPECT_EQ(profile.excluded[0].why, findings::left_out_by_user("damp"));
  EXPECT_TRUE(profile.spread_with_left_out.isZero(0.0));
  EXPECT_EQ(excluding(2, "").refusal().code, "ambiguous_sheet");
  EXPECT_EQ(excluding(99, "").refusal().code, "no_such_sheet");
}

TEST(Sessions, FromFourOnAreASampleOfSessionsWhenTheyDiffer) {
  std::vector<ReadingSession> sessions;
  int number = 0;
  for (double off : {0.0, 0.8, -0.5, 0.4}) {
    std::vector<Registration> feeds = eight_feeds();
    for (Registration& r : feeds) r.dx_mm += off;
    const std::string name(1, static_cast<char>('a' + number++));
    sessions.push_back({name + ".json", readings_of(feeds, name)});
  }
  const PrinterProfile profile = estimate_profile(sessions, kLabels).value();
  EXPECT_FALSE(warns(profile, "sessions_differ"));
  EXPECT_NEAR(profile.mean.dx_mm, .34125 + .175, 1e-12);
  // SOURCE  by hand: variance of 0, .8, -.5, .4.
  EXPECT_NEAR(profile.session_covariance(0, 0), 0.3091666667, 1e-9);
  EXPECT_DOUBLE_EQ(profile.feeds_per_session, 8.0);
  ASSERT_FALSE(profile.shares.empty());
  EXPECT_EQ(profile.shares[0].component, "dx_mm");
  const double within = profile.spread_covariance(0, 0);
  EXPECT_NEAR(std::pow(profile.shares[0].session_sd, 2), 0.3091666667 - within / 8, 1e-9);

  sessions.pop_back();
  const PrinterProfile three = estimate_profile(sessions, kLabels).value();
  EXPECT_TRUE(warns(three, "sessions_differ"));
  EXPECT_TRUE(three.session_covariance.isZero(0.0));
}

/// Holes round the page; the lower ones land `lift` mm lower than shift, turn and scale say.
Readings with_holes(double lift, std::size_t holes) {
  const std::vector<Point<VersoMm>> places = {{-90, -130}, {90, -130}, {-90, 130}, {90, 130},
                                              {0, -135},   {0, 135},   {-95, 0},   {95, 0}};
  Readings readings = readings_of(eight_feeds());
  int step = 0;
  for (SheetReading& s : readings.sheets) {
    for (std::size_t i = 0; i < holes; ++i) {
      const double noise = 0.01 * ((step++ * 7) % 5 - 2);
      FeatureReading f;
      f.id = "hole " + std::to_string(i + 1);
      f.at = places[i];
      f.e_mm = s.registration.displacement_mm(f.at) +
               Eigen::Vector2d(noise, -noise + (f.at.y > 100 ? lift : 0.0));
      f.sd_mm = 0.01;
      s.features.push_back(f);
    }
  }
  return readings;
}

PrinterProfile profile_with_holes(double lift, std::size_t holes) {
  return estimate_profile({{"a.json", with_holes(lift, holes)}}, kLabels).value();
}

TEST(ResidualFieldEstimate, FindsTheJumpAtTheTailAndNothingWhereThereIsNone) {
  const PrinterProfile jump = profile_with_holes(0.2, 8);
  EXPECT_EQ(jump.field.points.size(), 8U);
  EXPECT_TRUE(jump.field.real);
  EXPECT_GT(jump.field.amplitude_mm, 0.05);
  EXPECT_FALSE(profile_with_holes(0.0, 8).field.real);
}

TEST(ResidualFieldEstimate, NeedsEightHoles) {
  EXPECT_TRUE(profile_with_holes(0.2, 4).field.points.empty());
}

TEST(ResidualFieldEstimate, IsWhatTheHolesSayAtTheHolesAndUncertainFarFromThem) {
  const PrinterProfile profile = profile_with_holes(0.2, 8);
  const FieldPoint& hole = profile.field.points[5];
  const std::vector<Point<VersoMm>> places = {hole.at, {0, 0}};
  const FieldEstimate at = field_at(profile.field, places);
  EXPECT_NEAR((at.at_mm[0] - hole.residual_mm).norm(), 0.0, 0.02);
  EXPECT_GT(at.root_mm.row(1).norm(), 2 * at.root_mm.row(0).norm());
}

TEST(Normality, IsDoubtedForFeedsWithHeavyTails) {
  std::vector<Registration> feeds;
  for (int i = 0; i < 24; ++i) {
    feeds.push_back({0.01 * ((i * 5) % 7 - 3), 0.02 * ((i * 3) % 5 - 2), 0.1 * ((i * 2) % 9 - 4)});
  }
  EXPECT_FALSE(profile_of(feeds).heavy_tails);
  for (std::size_t i : {3U, 9U, 16U, 20U}) feeds[i].dx_mm = i % 2 == 0 ? 0.4 : -0.4;
  const PrinterProfile profile = profile_of(feeds);
  EXPECT_TRUE(profile.heavy_tails);
  EXPECT_TRUE(warns(profile, "heavy_tails"));
}

}  // namespace
}  // namespace versolay
