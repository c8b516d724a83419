#include <gmock/gmock.h>

#include "profile/check_remarks.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::profile_of;
using testing::readings_of;

/// The eight feeds less their mean (0.34, -0.37): what a correct correction leaves.
std::vector<Registration> corrected_feeds() {
  std::vector<Registration> feeds = eight_feeds();
  for (Registration& r : feeds) {
    r.dx_mm -= 0.34;
    r.dy_mm += 0.37;
  }
  return feeds;
}

TEST(CheckRemarks, NothingIsSaidOfNewSheetsOfTheSamePrinter) {
  const PrinterProfile profile = profile_of(eight_feeds());
  EXPECT_FALSE(known_sheets(profile, readings_of(eight_feeds(), "NEWS")));
  EXPECT_FALSE(looks_corrected(profile, readings_of(eight_feeds(), "NEWS")));
}

TEST(CheckRemarks, SheetsThatMadeTheProfileAreNamed) {
  const auto known = known_sheets(profile_of(eight_feeds()), readings_of(eight_feeds()));
  ASSERT_TRUE(known);
  EXPECT_EQ(known->code, "sheets_known");
}

TEST(CheckRemarks, SheetsOfACorrectedPdfAreAskedAbout) {
  const PrinterProfile profile = profile_of(eight_feeds());
  EXPECT_TRUE(looks_corrected(profile, readings_of(corrected_feeds(), "NEWS")));
  Readings job = readings_of(corrected_feeds(), "NEWS");
  for (SheetReading& sheet : job.sheets) sheet.correction = Registration{-.34, .37};
  EXPECT_FALSE(looks_corrected(profile, job));
}

TEST(CheckRemarks, FewCorrectedSheetsAreAskedAboutThoughTheyDoNotLieQuiteWhereTheyShould) {
  const PrinterProfile profile = profile_of(eight_feeds());
  Readings few = readings_of(corrected_feeds(), "NEWS");
  few.sheets.resize(3);
  for (SheetReading& sheet : few.sheets) sheet.registration.dy_mm += 0.1;
  EXPECT_TRUE(looks_corrected(profile, few));
  few.sheets.resize(1);
  EXPECT_FALSE(looks_corrected(profile, few));
}

}  // namespace
}  // namespace versolay
