#include "stats/bootstrap_pivot.h"

#include <cassert>
#include <cmath>
#include <memory>

#include "core/parallel.h"
#include "stats/order_statistic.h"

namespace versolay::stats {
namespace {

constexpr double kLargestPivotShare = 1.0 / 3;
constexpr double kPivotDof = 2.5;
constexpr std::uint64_t kSheetsStream = (std::uint64_t{1} << 62) + 10;
constexpr std::uint64_t kFirstSampleStream = std::uint64_t{1} << 61;

/// A sample like the one at hand: covariance with f degrees of freedom, error of its mean.
struct Resample {
  Eigen::MatrixXd covariance;
  Eigen::VectorXd mean_error;
};

Resample resample(const Eigen::MatrixXd& root, const FutureCards& future, Random& random) {
  const int r = static_cast<int>(root.cols());
  const double f = future.feeds.dof * future.dof_share;
  // Wishart by Bartlett: A A', A lower triangular, A_ii^2 ~ chi2(f - i).
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(r, r);
  for (int i = 0; i < r; ++i) {
    if (f - i > 0) a(i, i) = std::sqrt(random.chi_squared(f - i));
    for (int j = 0; j < i; ++j) a(i, j) = random.normal();
  }
  Eigen::VectorXd z(r);
  for (double& value : z) value = random.normal();
  const Eigen::MatrixXd factor = root * a;
  return {factor * factor.transpose() / f,
          root * z / std::sqrt(static_cast<double>(future.feeds.n))};
}

}  // namespace

double bootstrap_pivot_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                              const Promise& promise, const MonteCarlo& mc,
                              const BootstrapEffort& effort) {
  assert(!future.sessions && effort.samples >= 10);
  const Eigen::MatrixXd observed = future.feeds.covariance();
  const Eigen::MatrixXd root = root_of_scatter(observed);
  const Eigen::MatrixXd printer = root_of_difference(observed, future.measurement);
  // The plug-in answers "what if the mean were what it seems": that part of the offset which is
  // left uncorrected on purpose stays in both sides of the comparison.
  const Eigen::VectorXd left = future.feeds.mean - future.correction;
  const auto value =
      future.whole_sheets ? EdgeKernel::Value::per_sheet : EdgeKernel::Value::per_card;

  std::vector<float> ratios(static_cast<std::size_t>(effort.samples));
  double plug_in = 0.0;
  const auto make_quantile = [&] {
    const auto kernel =
        std::make_shared<EdgeKernel>(future.cards, direction, value, effort.sheets, mc.seed);
    const auto scratch = std::make_shared<std::vector<float>>();
    // The same sheets for everything that is compared.
    return [&, kernel, scratch](const Population& population) {
      Random sheets(mc.seed, kSheetsStream);
      const auto values = kernel->run(population, sheets);
      return static_cast<double>(
          order_statistic(values, rank_of_share(promise.coverage, values.size()), *scratch));
    };
  };
  plug_in = make_quantile()({left, printer});
  for_each_item(effort.samples, 16, mc.threads, [&] {
    const auto quantile = make_quantile();
    return [&, quantile](int item) {
      Random random(mc.seed, kFirstSampleStream + static_cast<std::uint64_t>(item));
      const Resample sample = resample(root, future, random);
      const double known = future.measurement_dof > 0
                               ? random.chi_squared(future.measurement_dof) / future.measurement_dof
                               : 1.0;
      // Where the back is moved by what the sample says, the error of its mean moves all cards.
      const double needed = quantile({left - sample.mean_error, printer});
      const double told =
          quantile({left, root_of_difference(sample.covariance, known * future.measurement)});
      ratios[static_cast<std::size_t>(item)] = static_cast<float>(needed / told);
    };
  });
  std::vector<float> scratch;
  const std::size_t rank =
      std::min(ratios.size(), rank_of_share(promise.confidence, ratios.size() + 1));
  return plug_in * order_statistic(ratios, rank, scratch);
}

OversizeBound sharpened(const OversizeBound& fiducial, const FutureCards& future,
                        const Eigen::Vector2d& direction, const Promise& promise,
                        const MonteCarlo& mc, const BootstrapEffort& effort) {
  OversizeBound bound = fiducial;
  if (future.sessions || future.cards.heavy_tails) return bound;
  // The excess of the fiducial bound fades with the degrees of freedom, the pivot's want does not.
  const double share = std::min(kLargestPivotShare, kPivotDof / future.feeds.dof);
  const double pivot = bootstrap_pivot_factor(future, direction, promise, mc, effort);
  const double sharpened =
      std::min(bound.factor, std::pow(bound.factor, 1 - share) * std::pow(pivot, share));
  bound.standard_error *= sharpened / bound.factor;
  bound.factor = sharpened;
  return bound;
}

}  // namespace versolay::stats
