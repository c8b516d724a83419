#include "profile/profile_match.h"

#include <gmock/gmock.h>

#include "profile/findings.h"
#include "support/findings.h"

namespace versolay {
namespace {

PrinterProfile profile_of(const std::vector<PrintedScale>& sizes) {
  PrinterProfile profile;
  for (const PrintedScale& size : sizes) {
    ProfileFeed feed;
    feed.printed_scale = size;
    profile.feeds.push_back(feed);
  }
  return profile;
}

Readings readings_of(const PrintedScale& size) {
  Readings readings;
  readings.sheets.emplace_back();
  readings.sheets.back().recto = size;
  return readings;
}

TEST(OtherPrintSize, OfTargetsThatWereFittedToThePageIsNamed) {
  const Notices remarks = remarks_on(profile_of({{0.986, 0.987}, {0.984, 0.985}}));
  ASSERT_EQ(remarks.size(), 1u);
  EXPECT_EQ(remarks[0].code, "profile_scale");
  EXPECT_NEAR(testing_support::fact<double>(remarks[0], "width_share"), 0.985, 1e-9);
  EXPECT_NEAR(testing_support::fact<double>(remarks[0], "height_share"), 0.986, 1e-9);
}

TEST(OtherPrintSize, WithinWhatAScannerMayBeOffIsNothingToSay) {
  EXPECT_TRUE(remarks_on(profile_of({{1.004, 0.997}, {1.003, 0.996}})).empty());
}

TEST(OtherPrintSize, ThatIsNotKnownIsNothingToSay) {
  EXPECT_TRUE(remarks_on(profile_of({{}, {}})).empty());
  EXPECT_FALSE(other_print_size(profile_of({{}}), readings_of({0.98, 0.98})));
  EXPECT_FALSE(other_print_size(profile_of({{1.0, 1.0}}), readings_of({})));
}

TEST(OtherPrintSize, OfAFeedThatWasLeftOutDoesNotCount) {
  PrinterProfile profile = profile_of({{1.0, 1.0}, {0.95, 0.95}});
  profile.feeds[1].left_out = findings::left_out_by_user("by hand");
  EXPECT_TRUE(remarks_on(profile).empty());
}

TEST(OtherPrintSize, OfNewSheetsIsComparedWithThatOfTheProfile) {
  const PrinterProfile profile = profile_of({{1.002, 1.001}});
  EXPECT_FALSE(other_print_size(profile, readings_of({1.004, 0.998})));
  const auto warning = other_print_size(profile, readings_of({1.002, 1.012}));
  ASSERT_TRUE(warning);
  EXPECT_NEAR(testing_support::fact<double>(*warning, "height_share"), 1.012, 1e-9);
  EXPECT_NEAR(testing_support::fact<double>(*warning, "profile_height_share"), 1.001, 1e-9);
}

}  // namespace
}  // namespace versolay
