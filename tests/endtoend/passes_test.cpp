// Sheets that are fed several times a side, from the PDF to the profile; and what people do wrong
// with them.
#include <gmock/gmock.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <string>

#include "app/measure.h"
#include "app/profile.h"
#include "app/target.h"
#include "rehearse/simulate.h"
#include "support/findings.h"
#include "support/scratch_folder.h"

namespace versolay {
namespace {

using ::testing::Contains;
using ::testing::Field;
using ::testing::IsEmpty;

class PassesTest : public ::testing::Test {
 protected:
  void print_target(int sheets, int passes) {
    TargetRequest target;
    target.paper = parse_paper("a4");
    target.sheets = sheets;
    target.passes = passes;
    target.run = "PASS";
    target.pdf = folder_ / "target.pdf";
    target.geometry = folder_ / "geometry.json";
    run_target(target);
  }

  rehearse::RehearsalScans scan(const std::string& pdf, int sheets, int passes, std::uint64_t seed,
                                double dpi) {
    rehearse::RehearsalSettings settings;
    settings.seed = seed;
    settings.sheets = sheets;
    settings.scanner.dpi = dpi;
    settings.passes.passes = passes;
    settings.passes.front_share = 0.5;
    return rehearse::simulate(settings, folder_ / pdf, folder_ / "geometry.json",
                              folder_ / "print");
  }

  Readings measure(const rehearse::RehearsalScans& scans) {
    MeasureRequest request;
    request.scans = scans.scans;
    request.out = folder_ / "readings.json";
    return run_measure(request, {});
  }

  testing_support::ScratchFolder folder_;
};

// Limits: three times what tests/bench/README.md has at 300 dpi, for 200 dpi and the largest of
// many; a ring that is taken for that of another pass would be off by millimetres.
TEST_F(PassesTest, EveryPassIsReadWhereItLies) {
  print_target(2, 4);
  const auto scans = scan("target.pdf", 2, 4, 21, 200);
  const Readings readings = measure(scans);
  ASSERT_EQ(readings.sheets.size(), 2u);
  EXPECT_THAT(readings.rejected, IsEmpty());
  for (std::size_t i = 0; i < 2; ++i) {
    const SheetReading& sheet = readings.sheets[i];
    const rehearse::Passes& truth = scans.sheets[i].passes;
    ASSERT_EQ(sheet.recto_passes.size(), 3u);
    ASSERT_EQ(sheet.verso_passes.size(), 3u);
    for (std::size_t k = 0; k < 3; ++k) {
      for (const bool front : {true, false}) {
        const PassLay& read = front ? sheet.recto_passes[k] : sheet.verso_passes[k];
        const Registration lay = front ? truth.front_lay(k) : truth.back_lay(k);
        SCOPED_TRACE((front ? "front " : "back ") + std::to_string(k + 2));
        EXPECT_EQ(read.pass, static_cast<int>(k) + 2);
        EXPECT_NEAR(read.lay.dx_mm, lay.dx_mm, 0.02);
        EXPECT_NEAR(read.lay.dy_mm, lay.dy_mm, 0.02);
        EXPECT_NEAR(read.lay.rotation_mrad, lay.rotation_mrad, 0.12);
        EXPECT_LT(std::sqrt(read.covariance(0, 0)), 0.01);
      }
    }
  }
  ProfileRequest profiling;
  profiling.readings = {folder_ / "readings.json"};
  profiling.labels.printer = "simulated";
  profiling.out = folder_ / "profile.json";
  const PrinterProfile profile = run_profile(profiling).value();
  EXPECT_EQ(profile.n_sheets, 2);
  EXPECT_EQ(profile.n_feeds, 8);
  ASSERT_TRUE(profile.passes);
  EXPECT_EQ(profile.passes->sheets, 2);
  EXPECT_NEAR(profile.passes->passes, 4.0, 1e-9);
}

// Five sheets of three passes; the fronts of pass 1 are pages 1 to 5, of pass 2 6 to 10, of pass 3
// 11 to 15, and so on with the backs. One fault a sheet.
TEST_F(PassesTest, WrongUseIsNamed) {
  if (std::system("command -v qpdf >/dev/null") != 0) GTEST_SKIP() << "qpdf is not installed";
  print_target(5, 3);
  // No table of places: qpdf makes one, and says so.
  std::ofstream(folder_ / "blank.pdf")
      << "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n"
         "2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n"
         "3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 595.276 841.89]>>\nendobj\n"
         "trailer\n<</Root 1 0 R/Size 4>>\n%%EOF\n";
  const std::string t = (folder_ / "target.pdf").string();
  const std::string command =
      "qpdf --empty --pages " + t + " 1-6 " + (folder_ / "blank.pdf").string() + " 1 " +  // 7
      t + " 8-14 " + t + " 10 " +  // 15: pass 2 again
      t + " 16-22 " + t + " 8 " +  // 23: front pass 2 on the back
      t + " 24-30 -- --rotate=180:9 " + (folder_ / "wrong.pdf").string() + " 2>/dev/null";
  const int status = std::system(command.c_str());
  ASSERT_TRUE(WIFEXITED(status));
  ASSERT_THAT(WEXITSTATUS(status), ::testing::AnyOf(0, 3));  // 3: with warnings

  const auto scans = scan("wrong.pdf", 5, 3, 22, 200);
  const Readings readings = measure(scans);
  ASSERT_EQ(readings.sheets.size(), 5u);
  const auto codes = [&](std::size_t sheet) {
    std::vector<std::string> list;
    for (const Finding& warning : readings.sheets[sheet].warnings) list.push_back(warning.code);
    return list;
  };
  EXPECT_THAT(codes(0), IsEmpty());
  EXPECT_THAT(codes(1), Contains("pass_missing"));
  EXPECT_THAT(codes(2), Contains("pass_on_wrong_side"));
  EXPECT_THAT(codes(3), Contains("pass_fed_round"));
  EXPECT_THAT(codes(4), Contains("pass_printed_twice"));
  EXPECT_THAT(codes(4), Contains("pass_missing"));
  // What is right is used all the same.
  EXPECT_EQ(readings.sheets[0].recto_passes.size(), 2u);
  EXPECT_EQ(readings.sheets[1].recto_passes.size(), 1u);
  EXPECT_EQ(readings.sheets[2].recto_passes.size(), 2u);
  EXPECT_EQ(readings.sheets[2].verso_passes.size(), 1u);
  EXPECT_EQ(readings.sheets[3].recto_passes.size(), 1u);
  EXPECT_THAT(readings.sheets[4].recto_passes, IsEmpty());
  for (std::size_t i = 0; i < 5; ++i) {
    const Registration truth = scans.sheets[i].registration();
    EXPECT_NEAR(readings.sheets[i].registration.dx_mm, truth.dx_mm, 0.05) << i;
    EXPECT_NEAR(readings.sheets[i].registration.dy_mm, truth.dy_mm, 0.05) << i;
  }
}

}  // namespace
}  // namespace versolay
