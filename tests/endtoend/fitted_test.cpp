// A job whose fronts are scanned before the backs are printed: target, profile, fronts, scans of
// the fronts, backs fitted to them, and the finished sheets. The simulated printer lays the same
// sheets the same way both times; the commands see scans only.
#include <gmock/gmock.h>

#include <cmath>
#include <cstdlib>

#include "app/impose.h"
#include "app/measure.h"
#include "app/profile.h"
#include "app/target.h"
#include "artwork/raster.h"
#include "core/files.h"
#include "profile/profile_json.h"
#include "registration/fronts_json.h"
#include "rehearse/simulate.h"
#include "support/findings.h"
#include "support/scratch_folder.h"

namespace versolay {
namespace {

constexpr int kTestSheets = 8;

/// More, by hand: VERSOLAY_JOB_SHEETS=40.
int job_sheets() {
  const char* wanted = std::getenv("VERSOLAY_JOB_SHEETS");
  return wanted != nullptr ? std::atoi(wanted) : 8;
}

class FittedJobTest : public ::testing::Test {
 protected:
  void SetUp() override {
    if (std::system("command -v qpdf >/dev/null") != 0) GTEST_SKIP() << "qpdf is not installed";
  }

  /// Both passes scatter equally and independently; the printer guides the paper by edges that are
  /// cut the same.
  static rehearse::RehearsalSettings settings(std::uint64_t seed, int sheets) {
    rehearse::RehearsalSettings settings;
    settings.seed = seed;
    settings.sheets = sheets;
    settings.scanner.dpi = 200;
    settings.passes.feed_sd = {0.35, 0.3, 1.0, 20, 20, 0.03};
    settings.passes.front_share = 0.5;
    settings.passes.lay_sd = {0, 0, 0, 0, 0, 0};
    settings.paper.size_sd_mm = 0.02;
    return settings;
  }

  PrinterProfile measured_printer() {
    TargetRequest target;
    target.sheets = kTestSheets;
    target.run = "FJTT";
    target.pdf = folder_ / "target.pdf";
    target.geometry = folder_ / "geometry.json";
    run_target(target);
    const auto printed = rehearse::simulate(settings(31, kTestSheets), target.pdf, *target.geometry,
                                            folder_ / "tests");
    MeasureRequest measuring;
    measuring.scans = printed.scans;
    measuring.out = folder_ / "readings.json";
    EXPECT_EQ(run_measure(measuring, {}).sheets.size(), static_cast<std::size_t>(kTestSheets));
    ProfileRequest profiling;
    profiling.readings = {measuring.out};
    profiling.labels.printer = "simulated";
    profiling.out = folder_ / "profile.json";
    return run_profile(profiling).value();
  }

  ImposeRequest job() {
    Raster card;
    card.width_px = 372;
    card.height_px = 520;
    card.channels = 1;
    card.samples.assign(372u * 520u, 120);
    const std::string png = encode_png(card);
    make_folder(folder_ / "fronts");
    for (int i = 1; i <= 9 * job_sheets(); ++i) {
      write_file_atomically(folder_ / "fronts" / (std::to_string(i) + ".png"), png, true);
    }
    write_file_atomically(folder_ / "back.png", png, true);
    ImposeRequest request;
    request.cards.fronts = folder_ / "fronts";
    request.cards.back = folder_ / "back.png";
    request.cards.size = {63, 88};
    request.outputs.pdf = folder_ / "job.pdf";
    request.outputs.cut_card = folder_ / "cut.pdf";
    return request;
  }

  rehearse::RehearsalScans print(const std::filesystem::path& pdf, const std::string& name) {
    rehearse::RehearsalSettings one = settings(77, job_sheets());
    one.holes.made = rehearse::HolesMade::none;
    return rehearse::print_and_scan(one, {pdf, parse_paper("a4"), Turn::long_edge, {}, false},
                                    folder_ / name);
  }

  testing_support::ScratchFolder folder_;
};

TEST_F(FittedJobTest, TheBacksLieCloserThanWithOneCorrectionForAll) {
  ImposeRequest request = job();
  request.backs.profile = measured_printer();
  const auto ordinary = run_impose(request, {});
  ASSERT_TRUE(ordinary) << ordinary.refusal();

  const auto printed = print(request.outputs.pdf, "first");
  MeasureRequest measuring;
  for (const auto& picture : printed.pictures) {
    if (picture.side == Side::recto) measuring.scans.push_back(picture.file);
  }
  measuring.out = folder_ / "fronts.json";
  const Fronts fronts = run_measure_fronts(measuring, {});
  ASSERT_EQ(fronts.fronts.size(), static_cast<std::size_t>(job_sheets()));
  EXPECT_THAT(fronts.rejected, ::testing::IsEmpty());

  request.backs.fitted_to = read_fronts(measuring.out);
  request.outputs.pdf = folder_ / "backs.pdf";
  request.outputs.cut_card = folder_ / "cut-again.pdf";
  const auto fitted = run_impose(request, {});
  ASSERT_TRUE(fitted) << fitted.refusal();
  const FittedSheets& sheets = *fitted.value().plan.fitted;
  ASSERT_EQ(sheets.page_from_wanted.size(), static_cast<std::size_t>(job_sheets()));
  EXPECT_EQ(fitted.value().run, ordinary.value().run);
  EXPECT_LT(sheets.reach.x_mm, ordinary.value().plan.back_reach.granted.x_mm);

  std::string pages;
  for (int i = 1; i <= job_sheets(); ++i) {
    pages += " " + (folder_ / "job.pdf").string() + " " + std::to_string(2 * i - 1) + " " +
             request.outputs.pdf.string() + " " + std::to_string(i);
  }
  const auto whole = folder_ / "whole.pdf";
  ASSERT_EQ(std::system(("qpdf --empty --pages" + pages + " -- " + whole.string()).c_str()), 0);
  const auto finished = print(whole, "second");
  MeasureRequest last;
  last.scans = finished.scans;
  last.out = folder_ / "finished.json";
  const Readings readings = run_measure(last, {});
  ASSERT_EQ(readings.sheets.size(), static_cast<std::size_t>(job_sheets()));

  Eigen::Vector2d fitted_squares(0, 0);
  Eigen::Vector2d ordinary_squares(0, 0);
  const auto of_all = ordinary.value().plan.correction.page_from_wanted;
  for (const SheetReading& sheet : readings.sheets) {
    const auto& truth = finished.sheets[static_cast<std::size_t>(sheet.sheet - 1)];
    // The same sheets as the first time.
    EXPECT_EQ(truth.registration(),
              printed.sheets[static_cast<std::size_t>(sheet.sheet - 1)].registration());
    const auto& own = sheets.page_from_wanted.at(sheet.sheet);
    ASSERT_TRUE(sheet.correction);
    EXPECT_EQ(*sheet.correction, *coded_correction(registration_from(own)));
    const Registration left = registration_from(truth.passes.landed_from_page() * own);
    EXPECT_NEAR(sheet.registration.dx_mm, left.dx_mm, 0.15);
    EXPECT_NEAR(sheet.registration.dy_mm, left.dy_mm, 0.15);
    const Registration otherwise = registration_from(truth.passes.landed_from_page() * of_all);
    fitted_squares += left.vec().head<2>().cwiseAbs2();
    ordinary_squares += otherwise.vec().head<2>().cwiseAbs2();
  }
  RecordProperty("rms_fitted_mm",
                 std::to_string(std::sqrt(fitted_squares.sum() / 2 / job_sheets())));
  RecordProperty("rms_ordinary_mm",
                 std::to_string(std::sqrt(ordinary_squares.sum() / 2 / job_sheets())));
  // Half of the variance in the long run; of few sheets, in both directions, not much more.
  EXPECT_LT(fitted_squares.sum(), 0.8 * ordinary_squares.sum());
}

}  // namespace
}  // namespace versolay
