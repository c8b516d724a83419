// Lines that a scanner lost or repeated, in the places of rings; the scanner's own unevenness is no
// such thing. Sizes of that: MEASUREMENT figures of usual flatbeds (from memory), and half as much
// again.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "measure/scan_break.h"

namespace versolay {
namespace {

constexpr double kPxPerMm = 300 / 25.4;

/// Rings in two columns and some rows across, as on a page of A4, seen at 300 dpi through a scanner
/// that wobbles (several wave lengths), is bent, and a print that is ragged.
std::vector<PagePair> page(std::uint64_t seed, double wobble_mm) {
  std::mt19937_64 engine(seed);
  const auto uniform = [&] { return static_cast<double>(engine() >> 11) * 0x1p-53; };
  const auto noise = [&] {  // of variance 1
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  };
  const double phase[] = {6 * uniform(), 6 * uniform(), 6 * uniform()};
  std::vector<PagePair> rings;
  for (int row = 0; row < 22; ++row) {
    for (int column = 0; column < 4; ++column) {
      const Point<PageMm> at{-85.0 + column * 56.0, -135.0 + row * 12.7 + 3.1 * column};
      const double wobble =
          wobble_mm * (std::sin(at.y / 6.0 + phase[0]) + 0.7 * std::sin(at.y / 19.0 + phase[1]) +
                       1.2 * std::sin(at.y / 70.0 + phase[2]));
      const double x = at.x + 105 + 0.03 * std::sin(at.x / 40) + 0.004 * noise();
      const double y = at.y + 150 + wobble + 0.004 * noise();
      rings.push_back({{x * kPxPerMm, y * kPxPerMm}, at});
    }
  }
  return rings;
}

std::optional<ScanBreak> found_in(const std::vector<PagePair>& rings) {
  const auto map = ScannerMap::fit(rings);
  EXPECT_TRUE(map);
  return map ? find_scan_break(rings, *map) : std::nullopt;
}

TEST(ScanBreak, UnevenCarriagesAreNone) {
  int alarms = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    for (const double wobble_mm : {0.0, 0.02, 0.05}) {
      alarms += found_in(page(seed, wobble_mm)) ? 1 : 0;
    }
  }
  EXPECT_LE(alarms, 1);
}

TEST(ScanBreak, LostLinesAreFoundWhereverTheyAre) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    for (const int lines : {6, 10, -6}) {
      for (const double at_mm : {60.0, 150.0, 230.0}) {
        std::vector<PagePair> rings = page(seed, 0.015);
        for (PagePair& ring : rings) {
          if (ring.scan.y > at_mm * kPxPerMm) ring.scan.y -= lines;
        }
        EXPECT_TRUE(found_in(rings)) << seed << ": " << lines << " lines at " << at_mm << " mm";
      }
    }
  }
}

}  // namespace
}  // namespace versolay
