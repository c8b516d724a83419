// What a scan file must come out as, by the definition and not by the code under test.
#pragma once

#include <gmock/gmock.h>

#include "scan/scan.h"
#include "support/scan_files.h"

namespace versolay::scan_files {

/// Light 0..255 of a pixel: BT.601 luma (ITU-R BT.601-7, 2.5.1), over white paper where the last
/// of 2 or 4 channels is alpha.
inline double expected_grey(const Picture& p, int x, int y) {
  const auto level = [&](int c) { return p.at(x, y, c) * 255.0 / p.max(); };
  const int colours = p.channels >= 3 ? 3 : 1;
  double grey = level(0);
  if (colours == 3) grey = 0.299 * level(0) + 0.587 * level(1) + 0.114 * level(2);
  if (p.channels == colours) return grey;
  const double alpha = level(colours) / 255.0;
  return grey * alpha + 255.0 * (1.0 - alpha);
}

using ExpectedAt = std::function<double(int x, int y)>;

/// The largest difference between the plane and what is expected, over all pixels.
inline double largest_difference(const GreyImage& grey, const ExpectedAt& expected) {
  double largest = 0.0;
  for (int y = 0; y < grey.height; ++y) {
    for (int x = 0; x < grey.width; ++x) {
      largest = std::max(largest, std::abs(grey.at(x, y) - expected(x, y)));
    }
  }
  return largest;
}

inline double largest_difference(const GreyImage& grey, const Picture& p) {
  EXPECT_EQ(grey.width, p.width);
  EXPECT_EQ(grey.height, p.height);
  if (grey.width != p.width || grey.height != p.height) return 255.0;
  return largest_difference(grey, [&](int x, int y) { return expected_grey(p, x, y); });
}

/// Light of a pixel whose value is an index into test_palette().
inline double expected_palette_grey(const Picture& p, int x, int y) {
  const png_color c = test_palette(p.bits)[p.at(x, y)];
  return 0.299 * c.red + 0.587 * c.green + 0.114 * c.blue;
}

/// A file that is incomplete or damaged, by whichever part of it showed.
inline const auto kDamaged = ::testing::ContainsRegex(
    "scan_damaged|scan_truncated|scanned_pdf_(damaged|not_unpacked|"
    "without_end|without_pages|without_page_size|picture_differs)");

/// What load_page states when it refuses; fails the test when it does not.
inline std::string refusal_of(const std::filesystem::path& path, int page = 1,
                              const ScanLimits& limits = {}) {
  try {
    load_page(path, page, limits);
  } catch (const Error& e) {
    return e.what();
  }
  ADD_FAILURE() << path << " was read";
  return {};
}

inline std::vector<std::string> codes(const Notices& notices) {
  std::vector<std::string> list;
  for (const Notice& n : notices) list.push_back(n.code);
  return list;
}

}  // namespace versolay::scan_files
