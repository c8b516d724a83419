// Holes in drawn paper: where they are, and which of them are not to be believed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "measure/hole.h"

namespace versolay {
namespace {

constexpr double kPxPerMm = 300.0 / 25.4;
constexpr int kSidePx = 220;
constexpr double kPaper = 220.0;
constexpr double kClearMm = 4.6;

Affine<PageMm, ScanPx> page_from_scan() {
  return {Eigen::Matrix2d::Identity() / kPxPerMm,
          Eigen::Vector2d::Constant(-kSidePx / 2.0 / kPxPerMm)};
}

/// Light as a function of the place, in mm from the middle; every pixel is the mean of 8 x 8 of it.
GreyImage drawn(const std::function<double(double, double)>& light) {
  GreyImage image{kSidePx, kSidePx, {}};
  for (int row = 0; row < kSidePx; ++row) {
    for (int column = 0; column < kSidePx; ++column) {
      double sum = 0.0;
      for (int i = 0; i < 64; ++i) {
        const double x = (column + (i % 8 + 0.5) / 8 - kSidePx / 2.0) / kPxPerMm;
        const double y = (row + (i / 8 + 0.5) / 8 - kSidePx / 2.0) / kPxPerMm;
        sum += light(x, y) / 64;
      }
      image.pixels.push_back(static_cast<std::uint8_t>(std::lround(sum)));
    }
  }
  return image;
}

struct Ellipse {
  double x, y, half_width, half_height;
  bool holds(double u, double v) const {
    return std::hypot((u - x) / half_width, (v - y) / half_height) < 1.0;
  }
};

std::variant<HoleSighting, HoleMiss> look(const std::function<double(double, double)>& light,
                                          HoleKind kind = HoleKind::punch) {
  const GreyImage image = drawn(light);
  return find_hole(Sampler(image), page_from_scan(), {0.0, 0.0}, kind, kClearMm);
}

auto hole_in_paper(const Ellipse& hole, double inside) {
  return [=](double x, double y) { return hole.holds(x, y) ? inside : kPaper; };
}

TEST(Hole, IsFoundWhereItIs) {
  for (const auto& [x, y] : {std::pair{0.0, 0.0}, {0.83, -0.41}, {-0.9, 0.37}}) {
    const auto found = look(hole_in_paper({x, y, 3.0, 3.0}, 30));
    ASSERT_TRUE(std::holds_alternative<HoleSighting>(found));
    const auto at = page_from_scan()(std::get<HoleSighting>(found).centre);
    EXPECT_NEAR(at.x, x, 0.003);
    EXPECT_NEAR(at.y, y, 0.003);
    EXPECT_NEAR(std::get<HoleSighting>(found).radius_mm, 3.0, 0.01);
  }
}

HoleMiss miss_of(const std::variant<HoleSighting, HoleMiss>& found) {
  EXPECT_TRUE(std::holds_alternative<HoleMiss>(found));
  return std::get<HoleMiss>(found);
}

TEST(Hole, OfLittleContrastIsRefused) {
  EXPECT_TRUE(
      std::holds_alternative<HoleSighting>(look(hole_in_paper({0, 0, 3.0, 3.0}, 0.55 * kPaper))));
  EXPECT_EQ(miss_of(look(hole_in_paper({0, 0, 3.0, 3.0}, 0.65 * kPaper))), HoleMiss::poor_contrast);
}

TEST(Hole, ThatIsFarFromRoundIsRefused) {
  EXPECT_TRUE(std::holds_alternative<HoleSighting>(look(hole_in_paper({0, 0, 3.1, 2.9}, 30))));
  EXPECT_EQ(miss_of(look(hole_in_paper({0, 0, 3.6, 2.4}, 30))), HoleMiss::ragged);
}

// A grey lid, some way behind: light on one side of the hole, in the sheet's shadow on the other.
TEST(Hole, WithACrescentOfShadowIsRefusedOrReadRight) {
  const Ellipse hole{0, 0, 3.0, 3.0};
  int refused = 0;
  for (const double lid : {0.35, 0.5, 0.6, 0.75, 0.95}) {
    for (const double shadow_mm : {0.8, 2.0, 3.5}) {
      const auto found = look([&](double x, double y) {
        if (!hole.holds(x, y)) return kPaper;
        return hole.holds(x, y + shadow_mm) ? lid * kPaper : 0.1 * kPaper;
      });
      if (std::holds_alternative<HoleMiss>(found)) {
        ++refused;
        continue;
      }
      const auto at = page_from_scan()(std::get<HoleSighting>(found).centre);
      EXPECT_LT(std::hypot(at.x, at.y), 0.02) << lid << " " << shadow_mm;
    }
  }
  EXPECT_GE(refused, 9);
  EXPECT_EQ(miss_of(look([&](double x, double y) {
              if (!hole.holds(x, y)) return kPaper;
              return y < 0 ? 0.5 * kPaper : 0.1 * kPaper;
            })),
            HoleMiss::uneven_light);
}

TEST(Hole, AcrossTheOutlineOfItsCircleIsRefused) {
  EXPECT_EQ(miss_of(look(hole_in_paper({2.2, 0, 3.0, 3.0}, 30))), HoleMiss::cut_off);
}

TEST(Hole, IsNotSeenInCleanPaper) {
  EXPECT_EQ(miss_of(look([](double, double) { return kPaper; })), HoleMiss::none_made);
  EXPECT_EQ(miss_of(look(hole_in_paper({1, 1, 0.3, 0.3}, 60))), HoleMiss::none_made);  // dirt
}

}  // namespace
}  // namespace versolay
