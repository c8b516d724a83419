#include <gmock/gmock.h>

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <vector>

#include "stats/random.h"

namespace versolay::stats {
namespace {

/// Largest distance between the empirical and the true distribution, times sqrt(n).
/// Its 99.99 % point is 2.23 (Kolmogorov).
template <class Cdf>
double kolmogorov(std::vector<double> values, const Cdf& cdf_of) {
  std::sort(values.begin(), values.end());
  const double n = static_cast<double>(values.size());
  double distance = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double p = cdf_of(values[i]);
    distance =
        std::max({distance, p - static_cast<double>(i) / n, static_cast<double>(i + 1) / n - p});
  }
  return distance * std::sqrt(n);
}

constexpr double kVeryUnlikely = 2.23;

TEST(Random, NormalNumbersFollowTheNormalDistribution) {
  for (std::uint64_t seed : {1U, 2U, 3U}) {
    Random random(seed);
    std::vector<double> values(200000);
    for (double& v : values) v = random.normal();
    EXPECT_LT(kolmogorov(values, [](double x) { return cdf(boost::math::normal(), x); }),
              kVeryUnlikely);
  }
}

TEST(Random, NormalNumbersHaveTheRightTailBeyondTheZiggurat) {
  // The tail beyond 3.654 is made by other code than the rest: 2.58e-4 of the numbers, and half of
  // them beyond 3.83.
  constexpr int kDraws = 4000000;
  Random random(7);
  int beyond = 0;
  int negative = 0;
  std::vector<double> tail;
  for (int i = 0; i < kDraws; ++i) {
    const double z = random.normal();
    if (std::abs(z) <= 3.6541528853610088) continue;
    ++beyond;
    negative += z < 0;
    tail.push_back(std::abs(z));
  }
  const double p = 2 * cdf(complement(boost::math::normal(), 3.6541528853610088));
  EXPECT_NEAR(beyond, kDraws * p, 5 * std::sqrt(kDraws * p));
  EXPECT_NEAR(negative, beyond / 2.0, 5 * std::sqrt(beyond / 4.0));
  EXPECT_LT(
      kolmogorov(tail,
                 [&](double x) { return 1 - 2 * cdf(complement(boost::math::normal(), x)) / p; }),
      kVeryUnlikely);
}

TEST(Random, ChiSquaredFollowsItsDistributionForWholeAndBrokenDegreesOfFreedom) {
  for (double dof : {0.5, 1.0, 2.0, 3.0, 10.0, 2.8}) {
    Random random(11);
    std::vector<double> values(50000);
    for (double& v : values) v = random.chi_squared(dof);
    EXPECT_LT(kolmogorov(values, [&](double x) { return cdf(boost::math::chi_squared(dof), x); }),
              kVeryUnlikely)
        << dof;
  }
}

TEST(Random, UniformNumbersNeverReachTheEnds) {
  Random random(5);
  double low = 1.0;
  double high = 0.0;
  for (int i = 0; i < 1000000; ++i) {
    const double u = random.uniform();
    low = std::min(low, u);
    high = std::max(high, u);
  }
  EXPECT_GT(low, 0.0);
  EXPECT_LT(high, 1.0);
  EXPECT_LT(low, 1e-4);
  EXPECT_GT(high, 1 - 1e-4);
}

TEST(Random, StreamsOfOneSeedAreUncorrelated) {
  constexpr int kDraws = 100000;
  for (std::uint64_t stream : {1U, 2U, 1000U}) {
    Random a(42, 0);
    Random b(42, stream);
    double sum = 0.0;
    for (int i = 0; i < kDraws; ++i) sum += a.normal() * b.normal();
    EXPECT_LT(std::abs(sum) / std::sqrt(kDraws), 4.5) << stream;
  }
}

TEST(Random, FloatsAreTheRoundedNormalNumbers) {
  Random a(3);
  Random b(3);
  std::vector<float> many(1000);
  a.fill_normal(many);
  for (float value : many) ASSERT_EQ(value, static_cast<float>(b.normal()));
}

}  // namespace
}  // namespace versolay::stats
