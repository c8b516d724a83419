#include "stats/calibrated_confidence.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "core/expect.h"
#include "core/parallel.h"
#include "stats/order_statistic.h"

namespace versolay::stats {
namespace {

constexpr double kLeast = 0.5;
constexpr std::uint64_t kFirstSampleStream = std::uint64_t{1} << 61;

/// A sample like the one at hand, were its estimates the truth, and what is left of the true mean
/// when the back is moved by what that sample says.
struct Resample {
  FutureCards future;
  RegistrationVector left;
};

Resample resample(const FutureCards& given, const Eigen::MatrixXd& root, Random& random) {
  const auto r = static_cast<int>(root.cols());
  // Wishart by Bartlett: A A', A lower triangular, A_ii^2 ~ chi2(f - i).
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(r, r);
  for (int i = 0; i < r; ++i) {
    if (given.feeds.dof > i) a(i, i) = std::sqrt(random.chi_squared(given.feeds.dof - i));
    for (int j = 0; j < i; ++j) a(i, j) = random.normal();
  }
  Eigen::VectorXd z(r);
  for (double& value : z) value = random.normal();
  const Eigen::VectorXd error = root * z / std::sqrt(static_cast<double>(given.feeds.n));
  const Eigen::MatrixXd factor = root * a;

  Resample s{given, given.feeds.mean - given.correction - error};
  s.future.feeds.scatter = factor * factor.transpose();
  if (given.measurement_dof > 0) {
    s.future.measurement *= random.chi_squared(given.measurement_dof) / given.measurement_dof;
  }
  return s;
}

/// Share of the credible populations of a sample that are content with less than `needed`.
double share_below(double needed, const FutureCards& future, const Promise& promise,
                   int populations, EdgeKernel& kernel, Random& random) {
  const FutureSampler sampler = sampler_of(future);
  int below = 0;
  for (int i = 0; i < populations; ++i) {
    Population population = sampler.draw(random);
    population.mean -= future.correction;
    const auto values = kernel.run_same_sheets(population, random);
    const auto limit = static_cast<float>(needed);
    std::size_t within = 0;
    for (const float value : values) within += value < limit ? 1 : 0;
    below += within >= rank_of_share(promise.coverage, values.size()) ? 1 : 0;
  }
  return static_cast<double>(below) / populations;
}

}  // namespace

double calibrated_confidence(const FutureCards& future, const Eigen::Vector2d& direction,
                             const Promise& promise, const MonteCarlo& mc,
                             const CalibrationEffort& effort) {
  expect(effort.samples >= 10);
  if (future.sessions || future.cards.heavy_tails) return promise.confidence;
  const Eigen::MatrixXd observed = future.feeds.covariance();
  const Eigen::MatrixXd root = root_of_scatter(observed);
  const Eigen::MatrixXd printer = root_of_difference(observed, future.measurement);

  std::vector<float> shares(static_cast<std::size_t>(effort.samples));
  for_each_item(effort.samples, 8, mc.threads, [&] {
    const auto kernel = std::make_shared<EdgeKernel>(future.cards, direction, value_of(future),
                                                     effort.sheets, mc.seed);
    const auto scratch = std::make_shared<std::vector<float>>();
    return [&, kernel, scratch](int item) {
      Random random(mc.seed, kFirstSampleStream + static_cast<std::uint64_t>(item));
      const Resample sample = resample(future, root, random);
      const auto values = kernel->run_same_sheets({sample.left, printer}, random);
      const double needed =
          order_statistic(values, rank_of_share(promise.coverage, values.size()), *scratch);
      shares[static_cast<std::size_t>(item)] = static_cast<float>(
          share_below(needed, sample.future, promise, effort.populations, *kernel, random));
    };
  });
  std::vector<float> scratch;
  const std::size_t rank =
      std::min(shares.size(), rank_of_share(promise.confidence, shares.size() + 1));
  return std::clamp<double>(order_statistic(shares, rank, scratch), kLeast, promise.confidence);
}

}  // namespace versolay::stats
