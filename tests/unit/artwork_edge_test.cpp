#include <gtest/gtest.h>

#include <cmath>

#include "artwork/picture_edge.h"
#include "artwork/raster.h"
#include "support/image_files.h"

namespace versolay {
namespace {

using testing_support::jpeg_bytes;
using testing_support::test_picture;

/// A busy picture inside a border of one colour.
Raster bordered(int band, std::array<int, 3> colour, int width = 630, int height = 880) {
  Raster r = test_picture(width, height, 3);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const int depth = std::min({x, y, width - 1 - x, height - 1 - y});
      if (depth >= band) continue;
      for (int c = 0; c < 3; ++c) {
        r.at(x, y, c) = static_cast<std::uint16_t>(colour[static_cast<std::size_t>(c)]);
      }
    }
  }
  return r;
}

TEST(ExamineEdge, TellsAPlainBorderItsColourAndItsDepth) {
  const ArtEdge edge = examine_edge(bordered(31, {20, 80, 160}), 5);
  EXPECT_EQ(edge.kind, EdgeKind::plain);
  EXPECT_EQ(edge.band_px, 31);
  EXPECT_NEAR(edge.colour[0], 20 / 255.0, 1e-9);
  EXPECT_NEAR(edge.colour[2], 160 / 255.0, 1e-9);
}

TEST(ExamineEdge, SeesAPlainBorderThroughJpegNoise) {
  const Raster lossy = decode_image(jpeg_bytes(bordered(32, {20, 80, 160})), "x.jpg");
  const ArtEdge edge = examine_edge(lossy, 5);
  EXPECT_EQ(edge.kind, EdgeKind::plain);
  EXPECT_NEAR(edge.colour[1], 80 / 255.0, 2 / 255.0);
  EXPECT_NEAR(edge.band_px, 32, 8);  // a block of the JPEG
}

TEST(ExamineEdge, WhiteIsPaper) {
  EXPECT_EQ(examine_edge(bordered(31, {255, 255, 255}), 5).kind, EdgeKind::white);
  EXPECT_EQ(examine_edge(bordered(31, {251, 252, 250}), 5).kind, EdgeKind::white);
  EXPECT_EQ(examine_edge(bordered(31, {235, 235, 235}), 5).kind, EdgeKind::plain);
}

TEST(ExamineEdge, ABandThinnerThanAskedForIsNoEdge) {
  EXPECT_EQ(examine_edge(bordered(4, {20, 80, 160}), 5).kind, EdgeKind::picture);
}

TEST(ExamineEdge, APictureIsNoPatternAndAPatternThatRepeatsIsOne) {
  EXPECT_EQ(examine_edge(test_picture(630, 880, 3), 5).kind, EdgeKind::picture);
  Raster waves = test_picture(630, 880, 3);
  for (int y = 0; y < 880; ++y) {
    for (int x = 0; x < 630; ++x) {
      for (int c = 0; c < 3; ++c) {
        const double v = std::sin(2 * M_PI * (7 * x / 630.0 + 3 * y / 880.0) + c) *
                         std::cos(2 * M_PI * (2 * x / 630.0 - 9 * y / 880.0));
        waves.at(x, y, c) = static_cast<std::uint16_t>(std::lround(127.5 + 120 * v));
      }
    }
  }
  EXPECT_EQ(examine_edge(waves, 5).kind, EdgeKind::pattern);
  Raster cut = waves;  // three quarters of its width: it does not close
  cut.width_px = 470;
  cut.samples.clear();
  for (int y = 0; y < 880; ++y) {
    for (int x = 0; x < 470; ++x) {
      for (int c = 0; c < 3; ++c) cut.samples.push_back(waves.at(x, y, c));
    }
  }
  EXPECT_EQ(examine_edge(cut, 5).kind, EdgeKind::picture);
}

}  // namespace
}  // namespace versolay
