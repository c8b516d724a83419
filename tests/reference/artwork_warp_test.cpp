#include <gtest/gtest.h>

#include <cmath>

#include "artwork/warp.h"

namespace versolay {
namespace {

/// Smooth test pattern that exists between the pixels too: fine enough to show a bad kernel, coarse
/// enough to be representable (shortest wave 8 px).
double pattern(double x, double y) {
  return 0.5 + 0.2 * std::sin(2 * M_PI * (x / 9.3 + y / 31.0)) +
         0.2 * std::cos(2 * M_PI * (y / 8.1 - x / 47.0));
}

Raster sampled(int width, int height, int bits, const Affine<ArtworkPx, ArtworkPx>& at) {
  Raster r;
  r.width_px = width;
  r.height_px = height;
  r.channels = 1;
  r.bits = bits;
  r.samples.resize(static_cast<std::size_t>(width * height));
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto p = at({x + 0.5, y + 0.5});
      r.at(x, y, 0) = static_cast<std::uint16_t>(std::lround(pattern(p.x, p.y) * r.largest()));
    }
  }
  return r;
}

Affine<ArtworkPx, ArtworkPx> map_of(double dx, double dy, double turn) {
  Eigen::Matrix2d m;
  m << std::cos(turn), -std::sin(turn), std::sin(turn), std::cos(turn);
  return {m, {dx, dy}};
}

// The truth is the pattern itself, not another resampler.
TEST(Warped, FollowsAKnownPatternAndItsHalfPixelConvention) {
  const Raster image = sampled(200, 160, 16, {});
  for (const auto& map : {map_of(3.37, -2.61, 0), map_of(0.5, 0.5, 0), map_of(1.2, 0.4, 0.02)}) {
    const Raster result = warped(image, map);
    const Raster truth = sampled(200, 160, 16, map);
    double sum = 0;
    int count = 0;
    for (int y = 12; y < 148; ++y) {
      for (int x = 12; x < 188; ++x) {
        sum += std::pow((result.at(x, y, 0) - truth.at(x, y, 0)) / 65535.0, 2);
        ++count;
      }
    }
    EXPECT_LT(std::sqrt(sum / count), 0.004);  // contrast of the pattern: 0.2
  }
}

TEST(Warped, LeavesTheImageAloneUnderTheIdentity) {
  const Raster image = sampled(60, 50, 8, {});
  EXPECT_EQ(warped(image, {}).samples, image.samples);
}

TEST(Warped, MovesWholePixelsExactlyAndRepeatsTheEdge) {
  const Raster image = sampled(60, 50, 8, {});
  const Raster result = warped(image, map_of(4, 0, 0));
  for (int y = 0; y < 50; ++y) {
    for (int x = 0; x < 56; ++x) EXPECT_EQ(result.at(x, y, 0), image.at(x + 4, y, 0));
    for (int x = 56; x < 60; ++x) EXPECT_EQ(result.at(x, y, 0), image.at(59, y, 0));
  }
}

TEST(Warped, StaysInRangeAtHardEdges) {
  Raster image = sampled(40, 40, 8, {});
  for (int y = 0; y < 40; ++y) {
    for (int x = 0; x < 40; ++x) image.at(x, y, 0) = x < 20 ? 0 : 255;
  }
  const Raster result = warped(image, map_of(0.4, 0.3, 0));
  for (std::uint16_t s : result.samples) EXPECT_LE(s, 255);
  EXPECT_EQ(result.at(5, 20, 0), 0);
  EXPECT_EQ(result.at(35, 20, 0), 255);
}

TEST(Warped, KeepsProfileAndResolution) {
  Raster image = sampled(40, 40, 8, {});
  image.icc_profile = "profile";
  image.ppi_x = image.ppi_y = 300;
  const Raster result = warped(image, map_of(0.4, 0.3, 0));
  EXPECT_EQ(result.icc_profile, "profile");
  EXPECT_EQ(result.ppi_x, image.ppi_x);
}

}  // namespace
}  // namespace versolay
