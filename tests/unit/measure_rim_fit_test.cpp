#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "measure/rim_fit.h"

namespace versolay {
namespace {

/// Polar points of two concentric circles about `centre`, seen from the origin.
std::vector<RimPoint> two_rims(const Eigen::Vector2d& centre, double outer, double inner, int n) {
  std::vector<RimPoint> points;
  for (int rim = 0; rim < 2; ++rim) {
    const double radius = rim == 0 ? outer : inner;
    for (int i = 0; i < n; ++i) {
      const double angle = 2 * std::numbers::pi * i / n;
      const Eigen::Vector2d ray(std::cos(angle), std::sin(angle));
      const double along = ray.dot(centre);
      const double across2 = centre.squaredNorm() - along * along;
      points.push_back({angle, along + std::sqrt(radius * radius - across2), rim});
    }
  }
  return points;
}

TEST(RimFit, FindsTheCentreOfPerfectRims) {
  const Eigen::Vector2d centre(0.012, -0.007);
  const auto fit = fit_rims(two_rims(centre, 2.5, 2.1, 72), 2, 144);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->centre_mm.x(), centre.x(), 1e-5);
  EXPECT_NEAR(fit->centre_mm.y(), centre.y(), 1e-5);
  EXPECT_NEAR(fit->radii_mm[0], 2.5, 1e-4);
  EXPECT_NEAR(fit->radii_mm[1], 2.1, 1e-4);
}

TEST(RimFit, AThirdOfTheRimUnderDirtDoesNotMoveTheCentre) {
  auto points = two_rims({0.010, 0.020}, 2.5, 2.1, 72);
  for (RimPoint& p : points) {
    if (p.angle_rad < 2.0) p.radius_mm += 0.3;  // a blot that hides the edge on one side
  }
  const auto fit = fit_rims(points, 2, 144);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->centre_mm.x(), 0.010, 3e-4);
  EXPECT_NEAR(fit->centre_mm.y(), 0.020, 3e-4);
}

TEST(RimFit, AnEllipseWithAGapKeepsItsCentre) {
  std::vector<RimPoint> points;
  for (int i = 0; i < 120; ++i) {
    const double angle = 2 * std::numbers::pi * i / 120;
    if (angle > 0.3 && angle < 1.6) continue;
    points.push_back({angle, 3.0 + 0.05 * std::cos(2 * angle), 0});
  }
  const auto fit = fit_rims(points, 1, 120);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->centre_mm.norm(), 0.0, 1e-6);
  EXPECT_NEAR(fit->second_harmonic_mm[0].norm(), 0.05, 1e-6);
}

TEST(RimFit, HalfARimIsNotEnough) {
  std::vector<RimPoint> points;
  for (int i = 0; i < 60; ++i) points.push_back({std::numbers::pi * i / 60, 3.0, 0});
  EXPECT_FALSE(fit_rims(points, 1, 90));
  EXPECT_FALSE(fit_rims({}, 1, 90));
}

}  // namespace
}  // namespace versolay
