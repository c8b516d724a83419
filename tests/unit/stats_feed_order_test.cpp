// Does a run of feeds drift, land on two places, scatter to one side?
#include <gmock/gmock.h>

#include "stats/feed_order.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

Eigen::MatrixXd normals(int rows, int columns, std::uint64_t seed, std::uint64_t stream) {
  Random random(seed, stream);
  Eigen::MatrixXd m(rows, columns);
  for (double& value : m.reshaped()) value = random.normal();
  return m;
}

using Question = RunTest (*)(const Eigen::MatrixXd&, std::uint64_t);

// Their levels: of normal feeds, a test at 5 % speaks in 5 % of the runs.
TEST(RunTests, SpeakAsOftenAsTheirLevelSaysWhenNothingIsOdd) {
  for (const Question test : {&trend_test, &two_places_test, &skewness_test}) {
    for (const int n : {5, 10}) {
      int spoke = 0;
      constexpr int kRuns = 300;
      for (int i = 0; i < kRuns; ++i) {
        spoke += test(normals(n, 3, 21, static_cast<std::uint64_t>(i)), 1).p_value < 0.05 ? 1 : 0;
      }
      EXPECT_NEAR(spoke / static_cast<double>(kRuns), 0.05, 0.04) << n;
    }
  }
}

// SOURCE  R: summary(lm(c(1, 2, 3, 5, 4, 6) ~ seq_len(6)))$coefficients[2, 3] = 5.6594533.
TEST(TrendTest, HasTheStudentTOfTheSlope) {
  Eigen::MatrixXd run(6, 1);
  run << 1, 2, 3, 5, 4, 6;
  EXPECT_NEAR(trend_test(run, 1).statistic, 5.6594533, 1e-6);
  EXPECT_LT(trend_test(run, 1).p_value, 0.01);
}

TEST(TrendTest, FindsADriftAndSaysOfWhat) {
  Eigen::MatrixXd run = normals(12, 3, 5, 1);
  for (Eigen::Index i = 0; i < run.rows(); ++i) run(i, 1) += 0.6 * static_cast<double>(i);
  const RunTest test = trend_test(run, 1);
  EXPECT_LT(test.p_value, 0.0125);
  EXPECT_EQ(test.component, 1);
}

TEST(TwoPlacesTest, FindsTwoPlaces) {
  Eigen::MatrixXd run = normals(10, 1, 5, 2);
  for (Eigen::Index i = 0; i < run.rows(); i += 4) run(i, 0) += 12;
  EXPECT_LT(two_places_test(run, 1).p_value, 0.0125);
}

// SOURCE  by hand: of (0, 0, 0, 1) the third moment is 3/32 and the sd sqrt(3)/4: 2 / sqrt(3).
TEST(SkewnessTest, HasTheMomentRatio) {
  Eigen::MatrixXd run(4, 1);
  run << 0, 0, 0, 1;
  EXPECT_NEAR(skewness_test(run, 1).statistic, 2 / std::sqrt(3.0), 1e-9);
}

}  // namespace
}  // namespace versolay::stats
