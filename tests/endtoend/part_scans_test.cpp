// Sheets that do not fit the scanner: halves of A3 on an A4 bed, edges beyond the end of the bed;
// and sheets that were scanned several times. Simulated printer and scanner, truth kept apart.
#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <functional>
#include <set>

#include "app/measure.h"
#include "app/target.h"
#include "registration/other_turn.h"
#include "rehearse/simulate.h"

namespace versolay {
namespace {

class PartScansTest : public ::testing::Test {
 protected:
  void SetUp() override { std::filesystem::create_directories(folder_); }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  /// Prints and scans a target. 200 dpi, so that it takes seconds.
  rehearse::RehearsalScans scan(const char* paper, int sheets, rehearse::RehearsalSettings settings,
                                const std::set<int>& fed_round = {}) {
    TargetRequest target;
    target.fed_round = fed_round;
    target.paper = parse_paper(paper);
    target.sheets = sheets;
    target.run = "PARS";
    target.pdf = folder_ / "target.pdf";
    target.geometry = folder_ / "geometry.json";
    make_target(target);
    settings.scanner.dpi = 200;
    return rehearse::simulate(settings, target.pdf, *target.geometry, folder_ / "print");
  }

  using Wanted = std::function<bool(const rehearse::ScanTruth&)>;
  Result<Readings> read(const rehearse::RehearsalScans& scans, const Wanted& wanted,
                        DatumChoice datum = DatumChoice::automatic,
                        const std::set<int>& fed_round = {}) {
    MeasureRequest request;
    for (const auto& picture : scans.pictures) {
      if (wanted(picture)) request.scans.push_back(picture.file);
    }
    request.out = folder_ / "readings.json";
    request.datum = datum;
    request.fed_round = fed_round;
    request.replace = true;
    Readings readings = measure(request, {});
    if (readings.sheets.empty()) return no_sheets(readings);
    return readings;
  }

  static void expect_close_to_the_truth(const Readings& readings,
                                        const rehearse::RehearsalScans& scans, double limit_mm,
                                        double limit_mrad) {
    ASSERT_EQ(readings.sheets.size(), scans.sheets.size());
    EXPECT_THAT(readings.rejected, testing::IsEmpty());
    for (std::size_t i = 0; i < scans.sheets.size(); ++i) {
      SCOPED_TRACE("sheet " + std::to_string(i + 1));
      const Registration truth = scans.sheets[i].registration();
      const Registration& read = readings.sheets[i].registration;
      EXPECT_NEAR(read.dx_mm, truth.dx_mm, limit_mm);
      EXPECT_NEAR(read.dy_mm, truth.dy_mm, limit_mm);
      EXPECT_NEAR(read.rotation_mrad, truth.rotation_mrad, limit_mrad);
    }
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::path(testing::TempDir()) /
      (std::string("versolay_") + testing::UnitTest::GetInstance()->current_test_info()->name() +
       std::to_string(getpid()));
};

const auto kAll = [](const rehearse::ScanTruth&) { return true; };

// Limits as for whole scans (rehearsal_test.cpp): 0.01 mm rms and 0.03 mrad are expected.
TEST_F(PartScansTest, A3IsReadFromHalvesOnAnA4Bed) {
  rehearse::RehearsalSettings settings;
  settings.seed = 21;
  settings.scanner.coverage = rehearse::Coverage::halves;
  settings.scanner.bed_across_mm = 297;
  settings.scanner.bed_along_mm = 216;
  settings.scanner.margin_mm = 2.0;
  settings.scanner.placement_mm = 0.5;
  settings.scanner.skew_deg = 0.4;
  const auto scans = scan("a3", 2, settings);
  ASSERT_EQ(scans.pictures.size(), 8u);
  const auto readings = read(scans, kAll);
  ASSERT_TRUE(readings) << readings.refusal().message;
  expect_close_to_the_truth(readings.value(), scans, 0.05, 0.25);
  EXPECT_EQ(readings.value().sheets[0].features.size(), 4u);  // the bed cuts the long edges off

  // The lower half of one back is missing: named, and the other sheet is read all the same.
  const auto partly = read(scans, [](const rehearse::ScanTruth& picture) {
    return !(picture.sheet == 2 && picture.side == Side::verso && picture.part == 1);
  });
  ASSERT_TRUE(partly);
  ASSERT_EQ(partly.value().sheets.size(), 1u);
  ASSERT_EQ(partly.value().rejected.size(), 1u);
  EXPECT_EQ(partly.value().rejected[0].code, "half_missing");
  EXPECT_THAT(partly.value().rejected[0].message, testing::HasSubstr("lower half of the back"));
}

// Edges: 0.02 to 0.04 mm are expected.
TEST_F(PartScansTest, ASheetAsLongAsTheBedIsReadByItsEdgesFromTwoShiftedScans) {
  rehearse::RehearsalSettings settings;
  settings.seed = 22;
  settings.holes.made = rehearse::HolesMade::none;
  settings.scanner.coverage = rehearse::Coverage::shifted;
  settings.scanner.margin_mm = 3.0;
  settings.scanner.placement_mm = 0.5;
  settings.scanner.skew_deg = 0.4;
  const auto scans = scan("a4", 2, settings);
  ASSERT_EQ(scans.pictures.size(), 8u);
  const auto readings = read(scans, kAll);
  ASSERT_TRUE(readings) << readings.refusal().message;
  expect_close_to_the_truth(readings.value(), scans, 0.12, 0.4);
  EXPECT_EQ(readings.value().sheets[0].datum, "paper edges");
  EXPECT_EQ(readings.value().sheets[0].model, RegistrationModel::affine);
  EXPECT_TRUE(readings.value().sheets[0].recto_lay);

  const auto once =
      read(scans, [](const rehearse::ScanTruth& picture) { return picture.part == 0; });
  ASSERT_FALSE(once);
  EXPECT_THAT(once.refusal().message, testing::HasSubstr("twice, shifted by 15 mm"));
}

TEST_F(PartScansTest, ScansOfOneSideTurnedRoundAreCombined) {
  rehearse::RehearsalSettings settings;
  settings.seed = 23;
  settings.scans_per_side = 3;
  settings.scanner.turn_repeats = true;
  const auto scans = scan("a4", 2, settings);
  const auto readings = read(scans, kAll, DatumChoice::holes);
  ASSERT_TRUE(readings) << readings.refusal().message;
  expect_close_to_the_truth(readings.value(), scans, 0.05, 0.25);
  for (const SheetReading& sheet : readings.value().sheets) {
    EXPECT_EQ(sheet.files.size(), 6u);
    EXPECT_EQ(sheet.repeats.size(), 3u);
    for (const Registration& repeat : sheet.repeats) {
      EXPECT_NEAR(repeat.dx_mm, sheet.registration.dx_mm, 0.03);
      EXPECT_NEAR(repeat.dy_mm, sheet.registration.dy_mm, 0.03);
    }
  }
}

// The simulated printer knows its own frame only; the pages of the even sheets were turned in it.
TEST_F(PartScansTest, SheetsFedRoundAreToldInTheFrameOfThePrinter) {
  rehearse::RehearsalSettings settings;
  settings.seed = 24;
  const std::set<int> even = {2, 4};
  const auto scans = scan("a4", 4, settings, even);
  const auto readings = read(scans, kAll, DatumChoice::automatic, even);
  ASSERT_TRUE(readings) << readings.refusal().message;
  expect_close_to_the_truth(readings.value(), scans, 0.05, 0.25);
  EXPECT_TRUE(readings.value().sheets[1].fed_round);

  const auto unaware = read(scans, kAll);
  ASSERT_TRUE(unaware);
  const Registration truth = scans.sheets[1].registration();
  EXPECT_NEAR(unaware.value().sheets[1].registration.dx_mm, -truth.dx_mm, 0.05);
  EXPECT_NEAR(unaware.value().sheets[1].registration.dy_mm, -truth.dy_mm, 0.05);
  EXPECT_NEAR(unaware.value().sheets[1].registration.rotation_mrad, truth.rotation_mrad, 0.25);

  // Where both prints lie on the paper tells the registration once more, by the edges: exact for
  // this turn, and with the paper's own irregularities for the other.
  for (const SheetReading& sheet : readings.value().sheets) {
    ASSERT_TRUE(sheet.recto_lay && sheet.verso_lay);
    const Eigen::Vector3d by_lays =
        registration_from_lays(*sheet.recto_lay, *sheet.verso_lay, TurnAxis::vertical);
    EXPECT_NEAR(by_lays[0], sheet.registration.dx_mm, 0.08);
    EXPECT_NEAR(by_lays[1], sheet.registration.dy_mm, 0.08);
  }
}

}  // namespace
}  // namespace versolay
