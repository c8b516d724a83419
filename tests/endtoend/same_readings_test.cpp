// What `measure` says does not depend on how many threads read, or in which order.
#include <gmock/gmock.h>

#include <algorithm>
#include <map>
#include <random>

#include "core/files.h"
#include "support/findings.h"
#include "support/simulated_scans.h"

namespace versolay {
namespace {

using testing_support::SimulatedScansTest;

class SameReadingsTest : public SimulatedScansTest {
 protected:
  using Outputs = std::map<std::string, std::string>;  // bytes by name

  /// Readings and overlays. The time at which it was done is no reading.
  Outputs outputs(std::vector<std::filesystem::path> files, int threads) {
    MeasureRequest request = request_for(std::move(files));
    request.threads = threads;
    const std::filesystem::path overlays = folder() / ("overlays" + std::to_string(++runs_));
    request.overlay = overlays;
    const auto readings = read(request);
    EXPECT_TRUE(readings) << readings.refusal();
    Outputs outputs;
    std::string& text = outputs["readings"];
    text = read_file(request.out);
    const std::size_t created = text.find("\"created\"");
    text.erase(created, text.find('\n', created) - created);
    for (const auto& picture : std::filesystem::directory_iterator(overlays)) {
      outputs[picture.path().filename().string()] = read_file(picture.path());
    }
    return outputs;
  }

 private:
  int runs_ = 0;
};

// Two scans of each side, so that what is combined is put in order, too; and one that is no scan.
TEST_F(SameReadingsTest, WhateverTheThreadsAndTheOrder) {
  rehearse::RehearsalSettings twice = settings(27);
  twice.scans_per_side = 2;
  twice.scanner.dpi = 150;
  auto files = files_of(scan("a4", 2, twice));
  files.push_back(folder() / "1" / "target.pdf");
  ASSERT_EQ(files.size(), 9u);
  // Two of one name, in two folders.
  std::filesystem::create_directory(folder() / "again");
  const auto namesake = folder() / "again" / files[0].filename();
  std::filesystem::rename(files[1], namesake);
  files[1] = namesake;
  const Outputs alone = outputs(files, 1);
  EXPECT_GE(alone.size(), 1u + 8u);
  std::mt19937 random(5);
  for (const int threads : {2, 7}) {
    std::shuffle(files.begin(), files.end(), random);
    const Outputs together = outputs(files, threads);
    ASSERT_EQ(together.size(), alone.size());
    for (const auto& [name, bytes] : alone) {
      EXPECT_TRUE(together.at(name) == bytes) << name << " differs with " << threads << " threads";
    }
  }
}

}  // namespace
}  // namespace versolay
