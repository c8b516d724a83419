// Targets printed and scanned by the simulator, and read by the command `measure`; truth kept
// apart.
#pragma once

#include <gmock/gmock.h>

#include <functional>
#include <set>
#include <string>
#include <utility>

#include "app/measure.h"
#include "app/target.h"
#include "rehearse/simulate.h"
#include "support/scratch_folder.h"

namespace versolay::testing_support {

class SimulatedScansTest : public ::testing::Test {
 protected:
  static rehearse::RehearsalSettings settings(std::uint64_t seed) {
    rehearse::RehearsalSettings settings;
    settings.seed = seed;
    settings.scanner.dpi = 200;  // so that it takes seconds
    return settings;
  }

  /// A sheet larger than the bed, laid against its stops by hand.
  static rehearse::RehearsalSettings halves(std::uint64_t seed, double bed_across_mm,
                                            double bed_along_mm) {
    rehearse::RehearsalSettings halves = settings(seed);
    halves.scanner.coverage = rehearse::Coverage::halves;
    halves.scanner.bed_across_mm = bed_across_mm;
    halves.scanner.bed_along_mm = bed_along_mm;
    halves.scanner.margin_mm = 2.0;
    halves.scanner.placement_mm = 0.5;
    halves.scanner.skew_deg = 0.4;
    return halves;
  }

  rehearse::RehearsalScans scan(const char* paper, int sheets,
                                const rehearse::RehearsalSettings& settings,
                                const std::set<int>& fed_round = {}) {
    const std::filesystem::path folder = folder_ / std::to_string(++prints_);
    std::filesystem::create_directories(folder);
    TargetRequest target;
    target.fed_round = fed_round;
    target.paper = parse_paper(paper);
    target.sheets = sheets;
    target.run = "PARS";
    target.pdf = folder / "target.pdf";
    target.geometry = folder / "geometry.json";
    run_target(target);
    return rehearse::simulate(settings, target.pdf, *target.geometry, folder / "print");
  }

  using Wanted = std::function<bool(const rehearse::ScanTruth&)>;
  static bool all(const rehearse::ScanTruth&) { return true; }

  static std::vector<std::filesystem::path> files_of(const rehearse::RehearsalScans& scans,
                                                     const Wanted& wanted = all) {
    std::vector<std::filesystem::path> files;
    for (const auto& picture : scans.pictures) {
      if (wanted(picture)) files.push_back(picture.file);
    }
    return files;
  }

  MeasureRequest request_for(std::vector<std::filesystem::path> files) const {
    MeasureRequest request;
    request.scans = std::move(files);
    request.out = folder_ / "readings.json";
    request.replace = true;
    return request;
  }

  static Result<Readings> read(const MeasureRequest& request) {
    Readings readings = run_measure(request, {});
    if (readings.sheets.empty()) return no_sheets(readings);
    return readings;
  }
  Result<Readings> read(const rehearse::RehearsalScans& scans, const Wanted& wanted = all) const {
    return read(request_for(files_of(scans, wanted)));
  }

  static void expect_close_to_the_truth(const Readings& readings,
                                        const rehearse::RehearsalScans& scans, double limit_mm,
                                        double limit_mrad) {
    ASSERT_EQ(readings.sheets.size(), scans.sheets.size());
    EXPECT_THAT(readings.rejected, ::testing::IsEmpty());
    for (std::size_t i = 0; i < scans.sheets.size(); ++i) {
      SCOPED_TRACE("sheet " + std::to_string(i + 1));
      const Registration truth = scans.sheets[i].registration();
      const Registration& read = readings.sheets[i].registration;
      EXPECT_NEAR(read.dx_mm, truth.dx_mm, limit_mm);
      EXPECT_NEAR(read.dy_mm, truth.dy_mm, limit_mm);
      EXPECT_NEAR(read.rotation_mrad, truth.rotation_mrad, limit_mrad);
    }
  }

  const std::filesystem::path& folder() const { return folder_.path(); }

 private:
  ScratchFolder folder_;
  int prints_ = 0;
};

}  // namespace versolay::testing_support
