#include <gtest/gtest.h>

#include <fstream>

#include "app/rehearsed_sheets.h"
#include "support/scratch_folder.h"

namespace versolay {
namespace {

using testing_support::ScratchFolder;

TEST(PrinterLike, IsOffByTheMeanAndScattersByWhatIsNotTheMeasurement) {
  PrinterProfile profile;
  profile.mean = {0.6, 0.2, 1.5, -100, 50, 0.1};
  profile.spread_dof = 9;
  // 3-4-5: a spread of 0.05 that was read with 0.03 is one of 0.04; where the reading alone
  // explains more than is seen, there is none.
  profile.spread_covariance.diagonal() << 0.0025, 0.01, 1.0, 100, 1600, 0.01;
  profile.measurement_covariance.diagonal() << 0.0009, 0.0, 0.0, 400, 0, 0;
  rehearse::PassSettings passes;
  make_printer_like(profile, "club.json", passes);
  EXPECT_EQ(passes.mean, profile.mean);
  EXPECT_NEAR(passes.feed_sd.dx_mm, 0.04, 1e-12);
  EXPECT_NEAR(passes.feed_sd.dy_mm, 0.1, 1e-12);
  EXPECT_NEAR(passes.feed_sd.rotation_mrad, 1.0, 1e-12);
  EXPECT_EQ(passes.feed_sd.scale_x_ppm, 0.0);
  EXPECT_NEAR(passes.feed_sd.scale_y_ppm, 40.0, 1e-12);
}

TEST(PrinterLike, NeedsToKnowHowSheetsDiffer) {
  PrinterProfile profile;
  profile.spread_dof = 0;
  rehearse::PassSettings passes;
  EXPECT_THROW(make_printer_like(profile, "club.json", passes), Error);
}

TEST(ReadingError, IsThatOfTheCornerThatIsWorstOff) {
  RehearsedSheet sheet{1, {0.1, 0.1, 0.5, 0, 0, 0}, SheetReading{}};
  sheet.reading->registration = {0.4, 0.5, 0.5, 0, 0, 0};
  EXPECT_NEAR(sheet.reading_error_mm(parse_paper("a4")), 0.5, 1e-12);
  // 1 mrad at a corner of A4, hypot(105, 148.5) mm from the middle.
  sheet.reading->registration = {0.1, 0.1, 1.5, 0, 0, 0};
  EXPECT_NEAR(sheet.reading_error_mm(parse_paper("a4")), 0.181872, 1e-6);
  EXPECT_EQ(largest_reading_error_mm({{2, {}, std::nullopt}}, parse_paper("a4")), 0.0);
}

TEST(RehearsalFolder, IsNotTakenFromSomethingElse) {
  const ScratchFolder scratch;
  const auto folder = scratch / "dry";
  EXPECT_NO_THROW(require_room_for_rehearsal(folder, false));
  std::filesystem::create_directories(folder / "print" / "scans");
  EXPECT_THROW(require_room_for_rehearsal(folder, false), Error);
  EXPECT_NO_THROW(require_room_for_rehearsal(folder, true));
  // Scans that no rehearsal has made stay; those of one that is played again go.
  std::ofstream(folder / "print" / "scans" / "012.png") << "mine";
  make_rehearsal_folder(folder);
  EXPECT_TRUE(std::filesystem::exists(folder / "print" / "scans" / "012.png"));
  std::ofstream(folder / "print" / "truth.json") << "{}";
  make_rehearsal_folder(folder);
  EXPECT_FALSE(std::filesystem::exists(folder / "print" / "scans" / "012.png"));
}

TEST(WorkShares, AddUpToTheWhole) {
  std::vector<double> seen;
  const Progress whole = [&](const WorkDone& work) { seen.push_back(work.whole); };
  WorkShares shares(whole, 40.0);
  tell(shares.next(10.0), 1, 2, Term{"reading scans"});
  tell(shares.next(30.0), 2, 2, Term{"reading scans"});
  EXPECT_EQ(seen, (std::vector<double>{0.125, 1.0}));
}

}  // namespace
}  // namespace versolay
