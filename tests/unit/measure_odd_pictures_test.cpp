// Pictures that no scanner makes. Each is a refusal with a reason, never the end of the program.
#include <gtest/gtest.h>

#include <opencv2/aruco.hpp>

#include "measure/side_reading.h"
#include "target/waste_geometry.h"

namespace versolay {
namespace {

Scan grey_scan(int width, int height, int level) {
  Scan scan;
  scan.file = "odd.png";
  scan.grey.width = width;
  scan.grey.height = height;
  scan.grey.pixels.assign(static_cast<std::size_t>(width) * static_cast<std::size_t>(height),
                          static_cast<std::uint8_t>(level));
  return scan;
}

TEST(OddPictures, OfAnyShapeAreRefused) {
  for (const auto& [width, height] : {std::pair{1, 1},
                                      {30000, 1},
                                      {1, 30000},
                                      {3, 20000},
                                      {20000, 3},
                                      {700, 2},
                                      {2, 701},
                                      {64, 64}}) {
    for (const int level : {0, 128, 255}) {
      SCOPED_TRACE(std::to_string(width) + " x " + std::to_string(height));
      EXPECT_FALSE(read_side(grey_scan(width, height, level)));
      Scan stretched = grey_scan(width, height, level);
      stretched.dpi_x = 3000;
      stretched.dpi_y = 3;
      EXPECT_FALSE(read_side(stretched));
    }
  }
}

/// Tags of the family on paper, where no target has them, drawn by OpenCV.
Scan with_tags(const std::vector<int>& ids, int columns) {
  constexpr int kSide = 80;
  constexpr int kStep = 120;
  const int rows = (static_cast<int>(ids.size()) + columns - 1) / columns;
  Scan scan = grey_scan(columns * kStep + 40, rows * kStep + 40, 255);
  const auto dictionary = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
  for (std::size_t i = 0; i < ids.size(); ++i) {
    cv::Mat tag;
    cv::aruco::drawMarker(dictionary, ids[i], kSide, tag, 1);
    const int x0 = 40 + static_cast<int>(i) % columns * kStep;
    const int y0 = 40 + static_cast<int>(i) / columns * kStep;
    for (int y = 0; y < kSide; ++y) {
      std::copy(tag.ptr(y), tag.ptr(y) + kSide, scan.grey.row(y0 + y) + x0);
    }
  }
  return scan;
}

// A fit through no place at all ended the program; each of a thousand tags had a code looked for
// beside it.
TEST(OddPictures, TagsInPlacesThatNoDesignHasAreRefused) {
  for (int id = 0; id < 587; id += 7) {
    EXPECT_FALSE(read_side(with_tags({id, id, id}, 3))) << id;
  }
  std::vector<int> many;
  for (int i = 0; i < 200; ++i) many.push_back(i % 40);
  EXPECT_FALSE(read_side(with_tags(many, 20)));
}

}  // namespace
}  // namespace versolay
