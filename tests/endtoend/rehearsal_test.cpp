// A whole job on simulated prints and scans: target, printer, scanner, measure, profile, correct,
// and the corrected target printed again. The commands see the scans, never the truth.
#include <gmock/gmock.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>

#include "app/rehearse.h"
#include "support/findings.h"

namespace versolay {
namespace {

// Limits: errors of the simulated carriage (30 um rms) and of hands and ink leave about 0.01 mm and
// 0.03 mrad at 200 dpi; a half pixel of bias would be 0.064 mm, a sign error ten times that.
constexpr double kOffsetLimitMm = 0.05;
constexpr double kRotationLimitMrad = 0.25;
constexpr double kScaleLimitPpm = 400.0;  // two scans of one scale: paper grows 60 ppm between them

struct Job {
  const char* paper;
  Turn turn;
  std::uint64_t seed;
};

void PrintTo(const Job& job, std::ostream* out) {
  *out << job.paper << " " << to_string(job.turn) << ", seed " << job.seed;
}

class RehearsalTest : public ::testing::TestWithParam<Job> {
 protected:
  void TearDown() override { std::filesystem::remove_all(folder_); }

  RehearseReport rehearse() {
    RehearseRequest request;
    request.folder = folder_;
    request.paper = parse_paper(GetParam().paper);
    request.turn = GetParam().turn;
    request.sheets = 5;
    request.proof_sheets = 4;
    request.seed = GetParam().seed;
    request.settings.scanner.dpi = 200;
    auto report = run_rehearse(request, {});
    EXPECT_TRUE(report) << report.refusal();
    return std::move(report).value();
  }

  static void expect_close_to_the_truth(const std::vector<RehearsedSheet>& sheets) {
    for (const RehearsedSheet& s : sheets) {
      ASSERT_TRUE(s.reading) << "sheet " << s.sheet << " was rejected";
      const Registration& read = s.reading->registration;
      SCOPED_TRACE("sheet " + std::to_string(s.sheet));
      EXPECT_NEAR(read.dx_mm, s.truth.dx_mm, kOffsetLimitMm);
      EXPECT_NEAR(read.dy_mm, s.truth.dy_mm, kOffsetLimitMm);
      EXPECT_NEAR(read.rotation_mrad, s.truth.rotation_mrad, kRotationLimitMrad);
      EXPECT_NEAR(read.scale_x_ppm, s.truth.scale_x_ppm, kScaleLimitPpm);
      EXPECT_NEAR(read.scale_y_ppm, s.truth.scale_y_ppm, kScaleLimitPpm);
    }
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::path(::testing::TempDir()) /
      (std::string("versolay_rehearsal_") + GetParam().paper + "_" + std::to_string(getpid()));
};

TEST_P(RehearsalTest, ReadsWhatHappenedAndTheCorrectedPrintIsBetter) {
  const RehearseReport report = rehearse();
  EXPECT_THAT(report.rejected, ::testing::IsEmpty());
  ASSERT_EQ(report.sheets.size(), 5u);
  ASSERT_EQ(report.proof.size(), 4u);
  expect_close_to_the_truth(report.sheets);
  expect_close_to_the_truth(report.proof);

  // What the profile believes is the mean of what really happened to these sheets.
  RegistrationVector happened = RegistrationVector::Zero();
  for (const RehearsedSheet& s : report.sheets) happened += s.truth.vec() / 5.0;
  EXPECT_NEAR(report.profile.mean.dx_mm, happened[0], kOffsetLimitMm);
  EXPECT_NEAR(report.profile.mean.dy_mm, happened[1], kOffsetLimitMm);
  EXPECT_NEAR(report.profile.mean.rotation_mrad, happened[2], kRotationLimitMrad);

  // The simulated printer does not bend the page.
  EXPECT_FALSE(report.profile.field.real);

  // The correction takes away the printer's mean but for the luck of five feeds: the standard
  // deviation of a mean of five is sd / sqrt(5). Four of those (and the limit of a reading) are
  // allowed on each axis. The simulated printer is off by (0.42, -0.31) mm with sd (0.15, 0.10).
  const rehearse::PassSettings printer;
  const double feeds = std::sqrt(5.0);
  const Registration& left = report.proof_mean_truth;
  EXPECT_LT(std::abs(left.dx_mm), 4 * printer.feed_sd.dx_mm / feeds + kOffsetLimitMm);
  EXPECT_LT(std::abs(left.dy_mm), 4 * printer.feed_sd.dy_mm / feeds + kOffsetLimitMm);
  EXPECT_LT(std::abs(left.rotation_mrad),
            4 * printer.feed_sd.rotation_mrad / feeds + kRotationLimitMrad);
  const double before = std::hypot(report.mean_truth.dx_mm, report.mean_truth.dy_mm);
  EXPECT_LT(std::hypot(left.dx_mm, left.dy_mm), before / 2);
}

INSTANTIATE_TEST_SUITE_P(Papers, RehearsalTest,
                         ::testing::Values(Job{"a4", Turn::long_edge, 11},
                                           Job{"letter", Turn::short_edge, 12}),
                         [](const auto& job) { return std::string(job.param.paper); });

}  // namespace
}  // namespace versolay
