#include <gmock/gmock.h>

#include "profile/check_remarks.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::eight_feeds;
using testing::profile_of;
using testing::readings_of;

std::vector<std::string> codes(const Readings& readings, bool corrected = false) {
  std::vector<std::string> list;
  for (const Notice& n : remarks_on_new_readings(profile_of(eight_feeds()), readings, corrected)) {
    list.push_back(n.code);
  }
  return list;
}

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
  EXPECT_THAT(codes(readings_of(eight_feeds(), "NEWS")), ::testing::IsEmpty());
}

TEST(CheckRemarks, SheetsThatMadeTheProfileAreNamed) {
  EXPECT_THAT(codes(readings_of(eight_feeds())), ::testing::ElementsAre("sheets_known"));
}

TEST(CheckRemarks, SheetsOfACorrectedPdfAreAskedAbout) {
  EXPECT_THAT(codes(readings_of(corrected_feeds(), "NEWS")),
              ::testing::ElementsAre("looks_corrected"));
  EXPECT_THAT(codes(readings_of(corrected_feeds(), "NEWS"), true), ::testing::IsEmpty());
  Readings job = readings_of(corrected_feeds(), "NEWS");
  for (SheetReading& sheet : job.sheets) sheet.correction = Registration{-.34, .37};
  EXPECT_THAT(codes(job), ::testing::IsEmpty());
}

}  // namespace
}  // namespace versolay
