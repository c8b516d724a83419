#include "stats/oversize_bound.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cassert>
#include <memory>
#include <numeric>

#include "core/parallel.h"
#include "stats/order_statistic.h"
#include "stats/tolerance.h"

namespace versolay::stats {
namespace {

using Value = EdgeKernel::Value;

/// Streams 0, 1, 2, ... belong to the credible populations; these to what is drawn once.
constexpr std::uint64_t kDirectionStream = std::uint64_t{1} << 62;
constexpr std::uint64_t kPlugInStream = kDirectionStream + 1;
constexpr int kPopulationsAtATime = 32;
constexpr int kSingleRunSheets = 100000;

/// What remains of a population after the correction.
Population corrected(Population population, const FutureCards& future) {
  population.mean -= future.correction;
  return population;
}

/// Simulates the sheets of every credible population and hands their values to `use`, in any
/// order, from several threads.
template <class Use>
void for_each_population(const FutureCards& future, const Eigen::Vector2d& direction, Value value,
                         const MonteCarlo& mc, const Use& use) {
  assert(mc.populations > 0 && mc.sheets > 0);
  const FiducialSampler sampler(future.feeds, future.measurement);
  for_each_item(mc.populations, kPopulationsAtATime, mc.threads, [&] {
    const auto kernel =
        std::make_shared<EdgeKernel>(future.cards, direction, value, mc.sheets, mc.seed);
    const auto scratch = std::make_shared<std::vector<float>>();
    return [&, kernel, scratch](int item) {
      Random random(mc.seed, static_cast<std::uint64_t>(item));
      const Population population = corrected(sampler.draw(random), future);
      use(item, kernel->run(population, random), *scratch);
    };
  });
}

float share_quantile(std::span<const float> values, double share, std::vector<float>& scratch) {
  return order_statistic(values, rank_of_share(share, values.size()), scratch);
}

}  // namespace

double oversize_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                       const Promise& promise, const MonteCarlo& mc) {
  std::vector<float> needed(static_cast<std::size_t>(mc.populations));
  for_each_population(
      future, direction, future.whole_sheets ? Value::per_sheet : Value::per_card, mc,
      [&](int item, std::span<const float> values, std::vector<float>& scratch) {
        needed[static_cast<std::size_t>(item)] = share_quantile(values, promise.coverage, scratch);
      });
  std::vector<float> scratch;
  const std::size_t rank =
      std::min(needed.size(), rank_of_share(promise.confidence, needed.size() + 1));
  return order_statistic(needed, rank, scratch);
}

Eigen::Vector2d per_axis_direction(const FutureCards& future, double coverage,
                                   const MonteCarlo& mc) {
  const Population spread_only{Eigen::VectorXd::Zero(6), psd_root(future.feeds.covariance())};
  const auto quantile_along = [&](const Eigen::Vector2d& axis) {
    EdgeKernel kernel(future.cards, axis, future.whole_sheets ? Value::per_sheet : Value::per_card,
                      kSingleRunSheets, mc.seed);
    Random random(mc.seed, kDirectionStream);
    std::vector<float> scratch;
    return static_cast<double>(
        share_quantile(kernel.run(spread_only, random), 1 - (1 - coverage) / 2, scratch));
  };
  const Eigen::Vector2d h(quantile_along({1, 0}), quantile_along({0, 1}));
  return h.cwiseMax(1e-3 * h.maxCoeff());  // an axis without any spread still gets a share
}

double plug_in_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                      const Promise& promise, const MonteCarlo& mc) {
  Population estimate{future.feeds.mean,
                      root_of_difference(future.feeds.covariance(), future.measurement)};
  EdgeKernel kernel(future.cards, direction,
                    future.whole_sheets ? Value::per_sheet : Value::per_card, kSingleRunSheets,
                    mc.seed);
  Random random(mc.seed, kPlugInStream);
  std::vector<float> scratch;
  const double needed = share_quantile(kernel.run(corrected(std::move(estimate), future), random),
                                       promise.coverage, scratch);
  const double k =
      two_sided_factor({static_cast<double>(future.feeds.n), static_cast<double>(future.feeds.dof)},
                       promise.coverage, promise.confidence);
  return needed * k / quantile(boost::math::normal(), (1 + promise.coverage) / 2);
}

Yield yield_of(const FutureCards& future, const Eigen::Vector2d& oversize_mm,
               const MonteCarlo& mc) {
  // A direction of 0 would ignore the axis instead of asking for no oversize.
  const Eigen::Vector2d direction = oversize_mm.cwiseMax(1e-6);
  Yield yield;
  yield.cards.resize(static_cast<std::size_t>(mc.populations));
  yield.sheets.resize(static_cast<std::size_t>(mc.populations));
  for_each_population(
      future, direction, Value::per_card, mc,
      [&](int item, std::span<const float> values, std::vector<float>& bad) {
        const auto sheets = static_cast<std::size_t>(mc.sheets);
        bad.assign(sheets, 0.0F);
        for (std::size_t i = 0; i < values.size(); ++i) bad[i % sheets] += values[i] > 1.0F;
        const float bad_cards = std::accumulate(bad.begin(), bad.end(), 0.0F);
        const auto good_sheets = std::count(bad.begin(), bad.end(), 0.0F);
        const auto at = static_cast<std::size_t>(item);
        yield.cards[at] = 1.0 - static_cast<double>(bad_cards) / static_cast<double>(values.size());
        yield.sheets[at] = static_cast<double>(good_sheets) / static_cast<double>(sheets);
      });
  return yield;
}

Band band_of(std::vector<double> values) {
  assert(!values.empty());
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) { return values[rank_of_share(share, values.size()) - 1]; };
  return {std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size()),
          at(0.05), at(0.95)};
}

}  // namespace versolay::stats
