// Profiles and readings of the first schema, which had sentences where there are findings now: they
// are read, mean the same, and are written as the newest version. The files were written by version
// 0.1.0 of the program (tests/data/version_1/README.md).
#include <gmock/gmock.h>

#include "profile/estimate.h"
#include "profile/findings.h"
#include "profile/misfeeds.h"
#include "profile/profile_json.h"
#include "support/findings.h"

namespace versolay {
namespace {

using testing_support::message_in;

PrinterProfile old_profile() { return read_profile(VERSOLAY_TEST_DATA "/version_1/profile.json"); }

TEST(VersionOne, OfAProfileIsReadWithWhyItsSheetsWereLeftOut) {
  const PrinterProfile profile = old_profile();
  ASSERT_EQ(profile.excluded.size(), 3u);
  EXPECT_EQ(profile.excluded[0].why.code, "misfeed");
  EXPECT_EQ(message_in(profile.excluded[0].why), "misfeed: 3.05 mm farther right than the others");
  EXPECT_EQ(profile.excluded[1].why, findings::left_out_by_user("damp paper"));
  EXPECT_EQ(profile.excluded[2].why.code, "in_doubt");
  EXPECT_TRUE(is_misfeed(profile.feeds[2]));
  EXPECT_FALSE(is_misfeed(profile.feeds[3]));
  EXPECT_FALSE(profile.feeds[0].left_out);
}

TEST(VersionOne, KeepsItsSentencesAndIsWrittenAnew) {
  const PrinterProfile profile = old_profile();
  EXPECT_THAT(message_in(profile.tests.at(0).conclusion), ::testing::HasSubstr("moving it helps"));
  EXPECT_THAT(message_in(profile.history.at(0).what), ::testing::HasSubstr("Renamed"));
  const Json written = json_of(profile);
  EXPECT_EQ(written.at("schema"), "versolay.profile/2");
  EXPECT_EQ(json_of(profile_from(parse_json(to_text(written), "p.json"), "p.json")), written);
}

// What a user left out stays out with its reason; misfeeds and doubts are judged again.
TEST(VersionOne, IsEstimatedAgainToTheSameNumbers) {
  const PrinterProfile profile = old_profile();
  EstimateOptions options;
  options.leave_out = {{4, "readings.json", "damp paper"}};
  const PrinterProfile again =
      estimate_profile(sessions_of(profile), {"club inkjet", "rear tray", "", ""}, options).value();
  EXPECT_EQ(again.n_feeds, profile.n_feeds);
  // Files round: mm and mrad to six decimals, ppm to three.
  const RegistrationVector off = again.mean.vec() - profile.mean.vec();
  EXPECT_LT(off.head<3>().norm(), 1e-5);
  EXPECT_LT(off.norm(), 2e-3);
  EXPECT_EQ(again.excluded.size(), profile.excluded.size());
}

}  // namespace
}  // namespace versolay
