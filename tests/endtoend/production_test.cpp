// A job with registration marks in its waste, printed and scanned by the simulator, read by its
// paper's edges: what is left after the correction is found on every sheet, and `check` says so.
#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <random>

#include "app/check.h"
#include "app/impose.h"
#include "app/measure.h"
#include "artwork/raster.h"
#include "core/files.h"
#include "profile/estimate.h"
#include "profile/profile_json.h"
#include "rehearse/simulate.h"
#include "support/findings.h"

namespace versolay {
namespace {

// What limits a reading is the scanner's carriage (30 um rms, waves of 15 to 150 mm) between the
// last ring and the edge of the paper, 7 mm on: 34 um for one edge of one side, whatever is made of
// the rings (a wave of 19 mm is past its turn there). Two edges and two sides that both lie along
// the carriage: 34 um in their mean; lying across it, a third of that.
constexpr double kRmsLimitMm = 0.045;  // of the sheets of a job: four, with luck of their own
constexpr double kRotationLimitMrad = 0.25;
// Of the stated standard deviation, for any one number: four sheets, four jobs, three numbers.
constexpr double kSigmas = 4.0;

struct Job {
  const char* name;
  const char* paper;
  Turn turn;
  double gutter_mm;
  std::uint64_t seed;
};

void PrintTo(const Job& job, std::ostream* out) { *out << job.name; }

/// A printer that was measured on ten targets, each off by the mean and its own luck.
PrinterProfile profile_of(const Job& job, const rehearse::PassSettings& passes) {
  ReadingSession session{"target.json", {}};
  session.readings.paper = parse_paper(job.paper);
  session.readings.turn = job.turn;
  session.readings.created = "2026-11-01T10:00:00Z";
  std::mt19937 random(job.seed);
  std::normal_distribution<double> normal;
  for (int i = 1; i <= 10; ++i) {
    SheetReading sheet;
    sheet.sheet = i;
    sheet.run = "ABCD";
    sheet.model = RegistrationModel::affine;
    RegistrationVector v = passes.mean.vec();
    for (int c = 0; c < 6; ++c) v[c] += passes.feed_sd.vec()[c] * normal(random);
    sheet.registration = Registration::from(v);
    sheet.covariance = RegistrationMatrix::Identity() * 1e-4;
    session.readings.sheets.push_back(sheet);
  }
  return estimate_profile({session}, {"simulated printer", "", "", ""}).value();
}

/// A card whose picture is full of dark rings and lines: nothing of it may be taken for a mark.
Raster busy_picture() {
  Raster r;
  r.width_px = 372;
  r.height_px = 520;
  r.channels = 1;
  r.samples.resize(static_cast<std::size_t>(r.width_px) * static_cast<std::size_t>(r.height_px));
  for (int y = 0; y < r.height_px; ++y) {
    for (int x = 0; x < r.width_px; ++x) {
      const double to_dot = std::hypot(x % 24 - 12, y % 24 - 12);
      const bool border = x < 6 || y < 6 || x >= r.width_px - 6 || y >= r.height_px - 6;
      r.at(x, y, 0) = border || (to_dot > 6 && to_dot < 8.5) ? 30 : 235;
    }
  }
  return r;
}

class ProductionTest : public testing::TestWithParam<Job> {
 protected:
  void SetUp() override { std::filesystem::create_directories(folder_ / "fronts"); }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  ImposeReport impose_job(const PrinterProfile& profile) {
    const std::string card = encode_png(busy_picture());
    for (int i = 1; i <= 4 * 9; ++i) {
      write_file_atomically(folder_ / "fronts" / (std::to_string(i) + ".png"), card, true);
    }
    write_file_atomically(folder_ / "back.png", card, true);
    ImposeRequest request;
    request.cards.fronts = folder_ / "fronts";
    request.cards.back = folder_ / "back.png";
    request.cards.size = {63, 88};
    request.sheet.gutter_mm = GetParam().gutter_mm;
    request.backs.profile = profile;
    request.backs.oversize = Reach{0.6, 0.5};
    request.outputs.pdf = folder_ / "job.pdf";
    request.outputs.cut_card = folder_ / "cut.pdf";
    auto report = run_impose(request, {});
    EXPECT_TRUE(report) << report.refusal();
    return report.value();
  }

  std::filesystem::path folder_ =
      std::filesystem::path(testing::TempDir()) /
      (std::string("versolay_production_") + GetParam().name + "_" + std::to_string(getpid()));
};

TEST_P(ProductionTest, ReadsWhatTheCorrectionLeftAndChecksTheProfile) {
  const Job& job = GetParam();
  rehearse::RehearsalSettings settings;
  settings.seed = job.seed;
  settings.scanner.dpi = 300;
  settings.holes.made = rehearse::HolesMade::none;
  const PrinterProfile profile = profile_of(job, settings.passes);
  const ImposeReport imposed = impose_job(profile);
  ASSERT_EQ(imposed.run.size(), 4u);
  settings.sheets = std::min(imposed.plan.sheets, 4);

  const auto printed = rehearse::print_and_scan(
      settings, {folder_ / "job.pdf", imposed.plan.paper, job.turn, {}, false}, folder_ / "print");
  MeasureRequest measuring;
  measuring.scans = printed.scans;
  measuring.out = folder_ / "readings.json";
  const Result<Readings> readings = run_measure(measuring, {});
  ASSERT_TRUE(readings) << readings.refusal();
  for (const RejectedInput& r : readings.value().rejected)
    ADD_FAILURE() << r.files.front() << r.why;
  ASSERT_EQ(readings.value().sheets.size(), printed.sheets.size());
  EXPECT_EQ(readings.value().turn, job.turn);

  RegistrationVector squares = RegistrationVector::Zero();
  for (const SheetReading& sheet : readings.value().sheets) {
    SCOPED_TRACE("sheet " + std::to_string(sheet.sheet));
    EXPECT_EQ(sheet.run, imposed.run);
    ASSERT_TRUE(sheet.correction);
    EXPECT_EQ(*sheet.correction, *coded_correction(imposed.correction()));
    const auto& truth = printed.sheets[static_cast<std::size_t>(sheet.sheet - 1)];
    const Registration left =
        registration_from(truth.passes.landed_from_page() * sheet.correction->landed_from_page());
    const RegistrationVector off = sheet.registration.vec() - left.vec();
    squares += off.array().square().matrix();
    // Without its correction it is the printer as it was simulated.
    const RegistrationVector off_raw =
        without_correction(sheet).registration.vec() - truth.registration().vec();
    for (int i = 0; i < 3; ++i) {
      SCOPED_TRACE("component " + std::to_string(i));
      const double limit = kSigmas * std::sqrt(sheet.covariance(i, i));
      EXPECT_LT(std::abs(off[i]), limit);
      EXPECT_LT(std::abs(off_raw[i]), limit);
    }
  }

  const RegistrationVector rms = (squares / settings.sheets).cwiseSqrt();
  EXPECT_LT(rms[0], kRmsLimitMm);
  EXPECT_LT(rms[1], kRmsLimitMm);
  EXPECT_LT(rms[2], kRotationLimitMrad);
  RecordProperty("rms_dx_um", std::to_string(rms[0] * 1e3));
  RecordProperty("rms_dy_um", std::to_string(rms[1] * 1e3));
  RecordProperty("rms_rotation_mrad", std::to_string(rms[2]));

  write_file_atomically(folder_ / "profile.json", to_text(json_of(profile)), true);
  CheckRequest check;
  check.profile = folder_ / "profile.json";
  check.readings = measuring.out;
  check.out = folder_ / "updated.json";
  const Result<CheckReport> checked = run_check(check);
  ASSERT_TRUE(checked) << checked.refusal();
  ASSERT_TRUE(checked.value().left);
  EXPECT_EQ(checked.value().left->sheets, settings.sheets);
  // The printer has not changed, so its sheets do not stand out; without the corrections that they
  // name they would, by 0.5 mm against a spread of 0.15.
  for (const FeedCheck& f : checked.value().check.feeds) EXPECT_FALSE(f.out) << f.sheet;
  EXPECT_EQ(checked.value().updated->n_sheets, 10 + settings.sheets);
}

INSTANTIATE_TEST_SUITE_P(Layouts, ProductionTest,
                         testing::Values(Job{"A4", "a4", Turn::long_edge, 0, 21},
                                         Job{"A4GutterTumble", "a4", Turn::short_edge, 1.5, 22},
                                         Job{"Letter", "letter", Turn::long_edge, 0, 23},
                                         Job{"A3", "a3", Turn::short_edge, 0, 24}),
                         [](const auto& job) { return std::string(job.param.name); });

}  // namespace
}  // namespace versolay
