#include "stats/feed_order.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "core/expect.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

using Statistic = std::function<double(const Eigen::VectorXd&)>;

double slope_t(const Eigen::VectorXd& y) {
  const auto n = static_cast<double>(y.size());
  const Eigen::VectorXd x = Eigen::VectorXd::LinSpaced(y.size(), -(n - 1) / 2, (n - 1) / 2);
  const Eigen::VectorXd centred = y.array() - y.mean();
  const double xx = x.squaredNorm();
  const double slope = x.dot(centred) / xx;
  const double left = (centred - slope * x).squaredNorm() / (n - 2);
  return std::abs(slope) / std::sqrt(std::max(left, 1e-300) / xx);
}

double best_cut(const Eigen::VectorXd& y) {
  std::vector<double> sorted(y.begin(), y.end());
  std::sort(sorted.begin(), sorted.end());
  const auto n = static_cast<double>(sorted.size());
  const double mean = y.mean();
  const double all = (y.array() - mean).square().sum();
  double below = 0.0;
  double best = 0.0;
  for (std::size_t k = 1; k < sorted.size(); ++k) {
    below += sorted[k - 1] - mean;
    const auto m = static_cast<double>(k);
    const double between = below * below * n / (m * (n - m));
    best = std::max(best, between / std::max(all - between, 1e-300));
  }
  return best;
}

double skewness(const Eigen::VectorXd& y) {
  const Eigen::ArrayXd centred = y.array() - y.mean();
  return std::abs(centred.cube().mean()) / std::pow(centred.square().mean(), 1.5);
}

/// Every statistic here does not depend on mean and spread, so that its distribution for one
/// component is simulated from standard normals; the components share the level (Sidak is exact for
/// independent ones, conservative otherwise).
RunTest run_test(const Eigen::MatrixXd& feeds, std::uint64_t seed, const Statistic& statistic) {
  expect(feeds.rows() >= 4 && feeds.cols() >= 1);
  RunTest result;
  for (Eigen::Index c = 0; c < feeds.cols(); ++c) {
    const double value = statistic(feeds.col(c));
    if (value > result.statistic) {
      result.statistic = value;
      result.component = static_cast<int>(c);
    }
  }
  Random random(seed, static_cast<std::uint64_t>(feeds.rows()));
  int as_large = 0;
  Eigen::VectorXd y(feeds.rows());
  for (int i = 0; i < kRunDraws; ++i) {
    for (double& value : y) value = random.normal();
    as_large += statistic(y) >= result.statistic ? 1 : 0;
  }
  const double one = (as_large + 1.0) / (kRunDraws + 1.0);
  result.p_value = 1 - std::pow(1 - one, static_cast<double>(feeds.cols()));
  return result;
}

}  // namespace

RunTest trend_test(const Eigen::MatrixXd& feeds, std::uint64_t seed) {
  return run_test(feeds, seed, slope_t);
}

RunTest two_places_test(const Eigen::MatrixXd& feeds, std::uint64_t seed) {
  return run_test(feeds, seed, best_cut);
}

RunTest skewness_test(const Eigen::MatrixXd& feeds, std::uint64_t seed) {
  return run_test(feeds, seed, skewness);
}

}  // namespace versolay::stats
