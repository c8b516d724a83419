// Sheets whose reading is in doubt: left out by a stated rule, named, and never silently part of an
// advice.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/doubt.h"
#include "profile/findings.h"
#include "profile/profile_json.h"
#include "profile/recommendation.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using testing::kLabels;
using testing::nine_cards;
using testing::profile_of;
using testing::readings_of;
using testing::warns;

/// `good` of the eight feeds, and one that is off by 0.3 mm and says that it may be.
Readings with_a_doubtful_sheet(std::size_t good) {
  std::vector<Registration> feeds = eight_feeds();
  feeds.resize(good);
  feeds.push_back({0.65, -0.05, 1.0});
  Readings readings = readings_of(feeds);
  readings.sheets.back().warnings = {{"datums_disagree", {}}, {"scan_black_and_white", {}}};
  return readings;
}

PrinterProfile estimated(const Readings& readings, const EstimateOptions& options = {}) {
  return estimate_profile({{"may.json", readings}}, kLabels, options).value();
}

TEST(Doubt, IsCastByWhatDisagreesAndByNothingElse) {
  EXPECT_TRUE(casts_doubt("datums_disagree"));
  EXPECT_FALSE(casts_doubt("scan_black_and_white"));
  EXPECT_THAT(doubts_in({{"hole_off", {}}, {"a", {}}, {"hole_off", {}}, {"edges_disagree", {}}}),
              ElementsAre("hole_off", "edges_disagree"));
}

TEST(DoubtfulSheets, AreLeftOutNamedAndDoNotMoveTheAdvice) {
  const PrinterProfile profile = estimated(with_a_doubtful_sheet(8));
  EXPECT_EQ(profile.n_feeds, 8);
  EXPECT_EQ(profile.n_sheets, 9);
  EXPECT_TRUE(warns(profile, "doubtful_left_out"));
  EXPECT_EQ(profile.mean.vec(), profile_of(eight_feeds()).mean.vec());
  ASSERT_EQ(profile.excluded.size(), 1u);
  EXPECT_EQ(profile.excluded[0].why, findings::left_out_in_doubt({"datums_disagree"}));

  AdviceRequest request;
  request.grid = nine_cards();
  EXPECT_TRUE(warns(advise(profile, request).value(), "doubtful_sheets"));
}

TEST(DoubtfulSheets, StayWhenAskedForOrWhenTooFewOthersRemain) {
  EstimateOptions all;
  all.keep_doubtful = true;
  const PrinterProfile kept = estimated(with_a_doubtful_sheet(8), all);
  EXPECT_EQ(kept.n_feeds, 9);
  EXPECT_TRUE(warns(kept, "doubtful_kept"));
  const PrinterProfile few = estimated(with_a_doubtful_sheet(2));
  EXPECT_EQ(few.n_feeds, 3);
  EXPECT_TRUE(warns(few, "doubtful_kept"));
  EXPECT_EQ(estimated(with_a_doubtful_sheet(3)).n_feeds, 3);
}

TEST(DoubtfulSheets, AreRememberedByTheFileAndLeftOutAgain) {
  const PrinterProfile profile = estimated(with_a_doubtful_sheet(8));
  const PrinterProfile read =
      profile_from(parse_json(to_text(json_of(profile)), "p.json"), "p.json");
  EXPECT_THAT(read.feeds.back().doubts, ElementsAre("datums_disagree"));
  const PrinterProfile again = estimate_profile(sessions_of(read), kLabels).value();
  EXPECT_EQ(again.n_feeds, 8);
  EXPECT_TRUE(warns(again, "doubtful_left_out"));
}

}  // namespace
}  // namespace versolay
