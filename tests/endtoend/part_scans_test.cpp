// Sheets that do not fit the scanner: halves of A3 on an A4 bed, edges beyond the end of the bed;
// and sheets that were scanned several times. Simulated printer and scanner, truth kept apart.
#include <gmock/gmock.h>

#include <cmath>

#include "registration/other_turn.h"
#include "support/findings.h"
#include "support/simulated_scans.h"

namespace versolay {
namespace {

using testing_support::SimulatedScansTest;
class PartScansTest : public SimulatedScansTest {};

// Limits as for whole scans (rehearsal_test.cpp): 0.01 mm rms and 0.03 mrad are expected.
constexpr double kLimitMm = 0.05;
constexpr double kLimitMrad = 0.25;

TEST_F(PartScansTest, A3IsReadFromHalvesOnAnA4Bed) {
  const auto scans = scan("a3", 2, halves(21, 297, 216));
  ASSERT_EQ(scans.pictures.size(), 8u);
  const auto readings = read(scans);
  ASSERT_TRUE(readings) << readings.refusal();
  expect_close_to_the_truth(readings.value(), scans, kLimitMm, kLimitMrad);
  EXPECT_EQ(readings.value().sheets[0].features.size(), 4u);  // the bed cuts the long edges off

  // The lower half of one back is missing: named, and the other sheet is read all the same.
  const auto partly = read(scans, [](const rehearse::ScanTruth& picture) {
    return !(picture.sheet == 2 && picture.side == Side::verso && picture.part == 1);
  });
  ASSERT_TRUE(partly);
  ASSERT_EQ(partly.value().sheets.size(), 1u);
  ASSERT_EQ(partly.value().rejected.size(), 1u);
  EXPECT_EQ(partly.value().rejected[0].why.code, "half_missing");
  EXPECT_EQ(testing_support::fact(partly.value().rejected[0].why, "where"), "lower");
  EXPECT_EQ(testing_support::fact(partly.value().rejected[0].why, "amount"), "half");
  EXPECT_EQ(testing_support::fact(partly.value().rejected[0].why, "side"), "back");
}

// Half of Tabloid is 215.9 mm: as much as a Letter bed of 216 mm (8.5 x 11.7 inch) shows. The
// halves do not overlap; what lies in the middle is in neither.
TEST_F(PartScansTest, TabloidIsReadFromHalvesOnALetterBed) {
  const auto scans = scan("tabloid", 2, halves(25, 297, 216));
  ASSERT_EQ(scans.pictures.size(), 8u);
  const auto readings = read(scans);
  ASSERT_TRUE(readings) << readings.refusal();
  expect_close_to_the_truth(readings.value(), scans, kLimitMm, kLimitMrad);
}

// The fronts on a small scanner, the backs on a large one; the same prints.
TEST_F(PartScansTest, HalvesOfOneSideGoWithWholeScansOfTheOther) {
  const auto small = scan("a3", 2, halves(26, 297, 216));
  const auto large = scan("a3", 2, settings(26));
  ASSERT_EQ(small.sheets[1].registration(), large.sheets[1].registration());
  for (const Side in_halves : {Side::recto, Side::verso}) {
    auto files = files_of(small, [&](const auto& p) { return p.side == in_halves; });
    const auto whole = files_of(large, [&](const auto& p) { return p.side != in_halves; });
    EXPECT_EQ(files.size(), 4u);
    EXPECT_EQ(whole.size(), 2u);
    files.insert(files.end(), whole.begin(), whole.end());
    const auto readings = read(request_for(std::move(files)));
    ASSERT_TRUE(readings) << readings.refusal();
    expect_close_to_the_truth(readings.value(), small, kLimitMm, kLimitMrad);
  }
}

// Edges: 0.02 to 0.04 mm are expected.
TEST_F(PartScansTest, ASheetAsLongAsTheBedIsReadByItsEdgesFromTwoShiftedScans) {
  rehearse::RehearsalSettings shifted = settings(22);
  shifted.holes.made = rehearse::HolesMade::none;
  shifted.scanner.coverage = rehearse::Coverage::shifted;
  shifted.scanner.margin_mm = 3.0;
  shifted.scanner.placement_mm = 0.5;
  shifted.scanner.skew_deg = 0.4;
  const auto scans = scan("a4", 2, shifted);
  ASSERT_EQ(scans.pictures.size(), 8u);
  const auto readings = read(scans);
  ASSERT_TRUE(readings) << readings.refusal();
  expect_close_to_the_truth(readings.value(), scans, 0.12, 0.4);
  EXPECT_EQ(readings.value().sheets[0].datum, (Datums{.edges = true}));
  EXPECT_EQ(readings.value().sheets[0].model, RegistrationModel::affine);
  EXPECT_TRUE(readings.value().sheets[0].recto_lay);

  const auto once =
      read(scans, [](const rehearse::ScanTruth& picture) { return picture.part == 0; });
  ASSERT_FALSE(once);
  const auto rejected = testing_support::fact<std::vector<Finding>>(once.refusal(), "rejected");
  ASSERT_FALSE(rejected.empty());
  EXPECT_TRUE(rejected[0].code == "edges_cut_off" || rejected[0].code == "edges_not_shown")
      << rejected[0].code;
}

TEST_F(PartScansTest, ScansOfOneSideTurnedRoundAreCombined) {
  rehearse::RehearsalSettings repeated = settings(23);
  repeated.scans_per_side = 3;
  repeated.scanner.turn_repeats = true;
  const auto scans = scan("a4", 2, repeated);
  MeasureRequest request = request_for(files_of(scans));
  request.datum = DatumChoice::holes;
  const auto readings = read(request);
  ASSERT_TRUE(readings) << readings.refusal();
  expect_close_to_the_truth(readings.value(), scans, kLimitMm, kLimitMrad);
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
  const std::set<int> even = {2, 4};
  const auto scans = scan("a4", 4, settings(24), even);
  MeasureRequest request = request_for(files_of(scans));
  const auto unaware = read(request);
  request.fed_round = even;
  const auto readings = read(request);
  ASSERT_TRUE(readings) << readings.refusal();
  expect_close_to_the_truth(readings.value(), scans, kLimitMm, kLimitMrad);
  EXPECT_TRUE(readings.value().sheets[1].fed_round);

  ASSERT_TRUE(unaware);
  const Registration truth = scans.sheets[1].registration();
  EXPECT_NEAR(unaware.value().sheets[1].registration.dx_mm, -truth.dx_mm, kLimitMm);
  EXPECT_NEAR(unaware.value().sheets[1].registration.dy_mm, -truth.dy_mm, kLimitMm);
  EXPECT_NEAR(unaware.value().sheets[1].registration.rotation_mrad, truth.rotation_mrad,
              kLimitMrad);

  // Where both prints lie on the paper gives the registration once more, by the edges: exact for
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
