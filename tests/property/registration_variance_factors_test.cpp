#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "registration/variance_factors.h"
#include "stats/random.h"

namespace versolay {
namespace {

constexpr Eigen::Index kPerGroup = 40;

/// A straight line through values of two groups that take turns, with errors that they share.
LeastSquaresProblem line(const std::vector<double>& sds, stats::Random& random) {
  LeastSquaresProblem problem;
  const Eigen::Index n = kPerGroup * static_cast<Eigen::Index>(sds.size());
  problem.design.resize(n, 2);
  problem.value.resize(n);
  problem.prior = Eigen::MatrixXd::Zero(0, 2);
  problem.left_out = Eigen::MatrixXd::Constant(n, 1, 0.2);
  const double shared = 0.5 * random.normal();
  for (Eigen::Index i = 0; i < n; ++i) {
    const std::size_t group = static_cast<std::size_t>(i) % sds.size();
    const double x = static_cast<double>(i) / static_cast<double>(n);
    problem.design.row(i) << 1.0, x;
    problem.value[i] = 3.0 - 2.0 * x + sds[group] * (shared + random.normal());
    problem.group.push_back(group);
  }
  return problem;
}

/// As `line` makes them where every sd is 1.
Eigen::MatrixXd stated(const LeastSquaresProblem& problem) {
  const Eigen::Index n = problem.value.size();
  return Eigen::MatrixXd::Identity(n, n) + Eigen::MatrixXd::Constant(n, n, 0.25);
}

double log_determinant(const Eigen::MatrixXd& m) { return m.ldlt().vectorD().array().log().sum(); }

/// Minus twice the log of restricted likelihood and statement, written out.
double surprise(const LeastSquaresProblem& problem, const std::vector<double>& factors) {
  const Eigen::MatrixXd c = scaled_by_group(stated(problem), problem, factors) +
                            problem.left_out * problem.left_out.transpose();
  const Eigen::MatrixXd inverse = c.inverse();
  const Eigen::MatrixXd normal = problem.design.transpose() * inverse * problem.design;
  const Eigen::VectorXd parameters =
      normal.inverse() * problem.design.transpose() * inverse * problem.value;
  const Eigen::VectorXd residual = problem.value - problem.design * parameters;
  double sum = log_determinant(c) + log_determinant(normal) + residual.dot(inverse * residual);
  for (const double f : factors) sum += 6.0 * (std::log(f) + 1.0 / f);
  return sum;
}

TEST(VarianceFactors, OfOneGroupAreItsChi2PooledWithTheStatement) {
  stats::Random random(3);
  LeastSquaresProblem problem = line({0.4}, random);
  problem.left_out.setZero();
  const auto solution = solve(problem, stated(problem));
  ASSERT_TRUE(solution);
  const Eigen::VectorXd residual = problem.value - problem.design * solution->parameters;
  const double chi2 = residual.dot(stated(problem).inverse() * residual);
  const auto factors = variance_factors(problem, stated(problem), 0.0);
  ASSERT_TRUE(factors);
  EXPECT_NEAR((*factors)[0], (6.0 + chi2) / (6.0 + kPerGroup - 2.0), 1e-6);
}

TEST(VarianceFactors, OfTwoGroupsAreMostLikely) {
  for (const std::uint64_t seed : {1, 2, 3, 4, 5}) {
    stats::Random random(seed);
    const LeastSquaresProblem problem = line({0.4, 2.5}, random);
    const auto factors = variance_factors(problem, stated(problem), 0.0);
    ASSERT_TRUE(factors);
    const double least = surprise(problem, *factors);
    for (const std::size_t g : {0, 1}) {
      for (const double step : {0.97, 1.03}) {
        auto other = *factors;
        other[g] *= step;
        EXPECT_GT(surprise(problem, other), least) << g << " " << step << ", seed " << seed;
      }
    }
  }
}

TEST(VarianceFactors, TellWhichGroupIsSteadierThanStated) {
  stats::Random random(7);
  constexpr int kSets = 50;
  Eigen::Array2d mean = Eigen::Array2d::Zero();
  for (int set = 0; set < kSets; ++set) {
    const LeastSquaresProblem problem = line({0.5, 2.0}, random);
    const auto factors = variance_factors(problem, stated(problem), 0.0);
    ASSERT_TRUE(factors);
    mean += Eigen::Array2d((*factors)[0], (*factors)[1]) / kSets;
  }
  // 0.25 and 4, drawn towards 1 by the statement's 6 of 44 degrees of freedom.
  EXPECT_NEAR(mean[0], (6 + 38 * 0.25) / 44, 0.03);
  EXPECT_NEAR(mean[1], (6 + 38 * 4.0) / 44, 0.3);
}

TEST(VarianceFactors, AreNotBelowTheLeast) {
  stats::Random random(11);
  const LeastSquaresProblem problem = line({0.2, 0.2}, random);
  const auto factors = variance_factors(problem, stated(problem), 1.0);
  ASSERT_TRUE(factors);
  EXPECT_EQ(*std::min_element(factors->begin(), factors->end()), 1.0);
}

TEST(LeastSquares, CovarianceUnderOtherErrorsIsTheScatterOfTheEstimates) {
  stats::Random random(13);
  constexpr int kSets = 4000;
  const std::vector<double> sds = {0.5, 2.0};
  Eigen::Matrix2d scatter = Eigen::Matrix2d::Zero();
  Eigen::Matrix2d foretold;
  for (int set = 0; set < kSets; ++set) {
    LeastSquaresProblem problem = line(sds, random);
    problem.left_out.setZero();
    const auto solution = solve(problem, stated(problem));
    ASSERT_TRUE(solution);
    const Eigen::Vector2d off = solution->parameters - Eigen::Vector2d(3.0, -2.0);
    scatter += off * off.transpose() / kSets;
    foretold = covariance_under(scaled_by_group(stated(problem), problem, {0.25, 4.0}), problem,
                                *solution);
  }
  for (const int i : {0, 1}) {
    EXPECT_NEAR(scatter(i, i), foretold(i, i), 0.08 * foretold(i, i)) << i;
  }
}

}  // namespace
}  // namespace versolay
