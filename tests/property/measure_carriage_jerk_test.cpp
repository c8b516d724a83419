// Does the stretching of rings distinguish a carriage that jerks from one that does not?
#include <gtest/gtest.h>

#include <boost/math/special_functions/bessel.hpp>
#include <cmath>
#include <numbers>

#include "measure/carriage_jerk.h"
#include "support/noise.h"

namespace versolay {
namespace {

constexpr double kPxPerMm = 300 / 25.4;
constexpr double kRadiusMm = 2.35;

struct Wobble {
  double amplitude_mm = 0.0;
  double period_mm = 1.0;
  double shown_mm = 0.0;  // of it in the places of the rings: a slow one moves them
};

/// Ninety rings of a page that lies upright, or on its side, and what is read of them. How a wobble
/// stretches a ring is the integral of (J3 - J1), independent of how it is undone.
double jerk_of(const Wobble& wobble, bool upright, unsigned seed) {
  testing_support::Noise noise(seed);
  const double kappa = 2 * std::numbers::pi * kRadiusMm / wobble.period_mm;
  const double share = boost::math::cyl_bessel_j(3, kappa) - boost::math::cyl_bessel_j(1, kappa);
  std::vector<PagePair> pairs;
  std::vector<RingStretch> rings;
  for (int i = 0; i < 90; ++i) {
    const Eigen::Vector2d bed(20 * (i % 9) - 80.0 + noise(), 28 * (i / 9) - 125.0 + 2 * noise());
    const double phase = 2 * std::numbers::pi * bed.y() / wobble.period_mm;
    Eigen::Vector2d seen = bed;
    seen.y() += wobble.shown_mm * std::sin(phase) + 0.002 * noise();
    Eigen::Vector2d harmonic(wobble.amplitude_mm * share * std::cos(phase), 0.0);
    if (!upright) harmonic = -harmonic;
    harmonic += 0.002 * Eigen::Vector2d(noise(), noise());
    const Eigen::Vector2d page = upright ? bed : Eigen::Vector2d(-bed.y(), bed.x());
    pairs.push_back({Point<ScanPx>::from(kPxPerMm * (seen + Eigen::Vector2d(150, 150))),
                     Point<PageMm>::from(page)});
    rings.push_back({pairs.back().scan, harmonic});
  }
  return carriage_jerk_sd_mm(rings, kRadiusMm, ScannerMap::fit(pairs).value());
}

TEST(CarriageJerk, ASteadyCarriageShowsNextToNothing) {
  for (const bool upright : {true, false}) EXPECT_LT(jerk_of({}, upright, 1), 0.005);
}

TEST(CarriageJerk, AWobbleWithinTheRingsIsToldToAFactorOfTwo) {
  for (const bool upright : {true, false}) {
    for (const double period_mm : {2.5, 4.0, 6.3, 8.7}) {
      const double sd_mm = 0.040 / std::numbers::sqrt2;
      const double jerk_mm = jerk_of({0.040, period_mm}, upright, 7);
      EXPECT_GT(jerk_mm, sd_mm / 2) << period_mm;
      EXPECT_LT(jerk_mm, sd_mm * 2) << period_mm;
    }
  }
}

TEST(CarriageJerk, ASlowUnevennessIsTheMapsAndNotToldAgain) {
  for (const bool upright : {true, false}) {
    EXPECT_LT(jerk_of({0.060, 120.0, 0.060}, upright, 3), 0.010) << upright;
  }
}

}  // namespace
}  // namespace versolay
