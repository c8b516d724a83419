#include <gmock/gmock.h>

#include <algorithm>

#include "stats/random.h"
#include "stats/robust_distance.h"

namespace versolay::stats {
namespace {

// SOURCE  Hawkins, Bradu & Kass, Technometrics 26, 1984: artificial data with 14 outliers (the
// first ones), explanatory variables, as in data set hbk of R package robustbase 0.95.
Eigen::MatrixXd hawkins_bradu_kass() {
  const std::vector<double> values = {
      10.1, 9.5,  10.7, 9.9,  10.3, 10.8, 10.5, 9.9,  9.7,  9.3,  11.0, 12.0, 12.0, 11.0, 3.4,
      3.1,  0.0,  2.3,  0.8,  3.1,  2.6,  0.4,  2.0,  1.3,  1.0,  0.9,  3.3,  1.8,  1.2,  1.2,
      3.1,  0.5,  1.5,  0.4,  3.1,  1.1,  0.1,  1.5,  2.1,  0.5,  3.4,  0.3,  0.1,  1.8,  1.9,
      1.8,  3.0,  3.1,  3.1,  2.1,  2.3,  3.3,  0.3,  1.1,  0.5,  1.8,  1.8,  2.4,  1.6,  0.3,
      0.4,  0.9,  1.1,  2.8,  2.0,  0.2,  1.6,  0.1,  2.0,  1.0,  2.2,  0.6,  0.3,  0.0,  0.3,
      19.6, 20.5, 20.2, 21.5, 21.1, 20.4, 20.9, 19.6, 20.7, 19.7, 24.0, 23.0, 26.0, 34.0, 2.9,
      2.2,  1.6,  1.6,  2.9,  3.4,  2.2,  3.2,  2.3,  2.3,  0.0,  3.3,  2.5,  0.8,  0.9,  0.7,
      1.4,  2.4,  3.1,  0.0,  2.4,  2.2,  3.0,  1.2,  0.0,  2.0,  1.6,  1.0,  3.3,  0.5,  0.1,
      0.5,  0.1,  1.6,  2.5,  2.8,  1.5,  0.6,  0.4,  3.0,  2.4,  3.2,  0.7,  3.4,  2.1,  1.5,
      3.4,  0.1,  2.7,  3.0,  0.7,  1.8,  2.0,  0.0,  0.6,  2.2,  2.5,  2.0,  1.7,  2.2,  0.4,
      28.3, 28.9, 31.0, 31.7, 31.1, 29.2, 29.1, 28.8, 31.0, 30.3, 35.0, 37.0, 34.0, 34.0, 2.1,
      0.3,  0.2,  2.0,  1.6,  2.2,  1.9,  1.9,  0.8,  0.5,  0.4,  2.5,  2.9,  2.0,  0.8,  3.4,
      1.0,  0.3,  1.5,  0.7,  3.0,  2.7,  2.6,  0.2,  1.2,  1.2,  2.9,  2.7,  0.9,  3.2,  0.6,
      3.0,  0.8,  3.0,  1.9,  2.9,  0.4,  1.2,  3.3,  0.3,  0.9,  0.9,  0.7,  1.5,  3.0,  3.3,
      3.0,  0.3,  0.2,  2.9,  2.7,  0.8,  1.2,  1.1,  0.3,  2.9,  2.3,  1.5,  2.2,  1.6,  2.6};
  return Eigen::Map<const Eigen::MatrixXd>(values.data(), 75, 3);
}

// SOURCE  R package robustbase, covMcd(hbk[, 1:3], nsamp = "exact"): h = 39; reweighted centre;
// the outliers are rows 1 to 14.
TEST(RobustDistances, FindTheFourteenOutliersOfHawkinsBraduAndKass) {
  const auto robust = robust_distances(hawkins_bradu_kass());
  ASSERT_TRUE(robust);
  EXPECT_FALSE(robust->exact);
  EXPECT_NEAR(robust->centre[0], 1.537704918, 1e-8);
  EXPECT_NEAR(robust->centre[1], 1.780327869, 1e-8);
  EXPECT_NEAR(robust->centre[2], 1.686885246, 1e-8);
  const auto& d = robust->distances;
  EXPECT_GT(*std::min_element(d.begin(), d.begin() + 14), 20.0);
  EXPECT_LT(*std::max_element(d.begin() + 14, d.end()), 4.0);
}

Eigen::MatrixXd normal_rows(int n, std::uint64_t seed) {
  Random random(seed);
  Eigen::MatrixXd rows(n, 3);
  for (double& value : rows.reshaped()) value = random.normal();
  return rows;
}

TEST(RobustDistances, SeeThroughAPairThatHidesItself) {
  Eigen::MatrixXd rows = normal_rows(11, 4);
  rows.row(2) << 6, 6, -6;
  rows.row(9) << 6.2, 5.9, -6.1;
  const auto robust = robust_distances(rows);
  ASSERT_TRUE(robust);
  EXPECT_TRUE(robust->exact);
  const double limit = robust_distance_limit(11, 3, 0.05, 1);
  EXPECT_GT(robust->distances[2], limit);
  EXPECT_GT(robust->distances[9], limit);
}

TEST(RobustDistances, DoNotDependOnTheUnits) {
  const Eigen::MatrixXd rows = normal_rows(20, 5);
  Eigen::MatrixXd other = rows;
  other.col(0) *= 1e6;
  other.col(1) = other.col(1) * 1e-6 + 3e-6 * rows.col(2);
  const auto a = robust_distances(rows);
  const auto b = robust_distances(other);
  ASSERT_TRUE(a && b);
  for (std::size_t i = 0; i < 20; ++i) EXPECT_NEAR(a->distances[i], b->distances[i], 1e-5);
}

TEST(RobustDistances, AreRefusedForFewRowsAndForHalvesInAPlane) {
  EXPECT_FALSE(robust_distances(normal_rows(7, 6)));
  Eigen::MatrixXd coarse = normal_rows(12, 7);
  coarse.col(1).head(10).setZero();
  EXPECT_FALSE(robust_distances(coarse));
}

TEST(RobustDistanceLimit, IsPassedAsOftenAsItShould) {
  const double limit = robust_distance_limit(9, 3, 0.10, 1);
  int over = 0;
  constexpr int kRuns = 400;
  for (int run = 0; run < kRuns; ++run) {
    const auto d = robust_distances(normal_rows(9, 1000 + static_cast<unsigned>(run)))->distances;
    over += *std::max_element(d.begin(), d.end()) > limit ? 1 : 0;
  }
  // Two simulated shares: sd 0.015 and 0.013.
  EXPECT_NEAR(static_cast<double>(over) / kRuns, 0.10, 0.08);
}

}  // namespace
}  // namespace versolay::stats
