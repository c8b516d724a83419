#include "stats/oversize_bound.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <memory>
#include <numeric>

#include "core/expect.h"
#include "core/linear_algebra.h"
#include "core/parallel.h"
#include "stats/order_statistic.h"
#include "stats/tolerance.h"

namespace versolay::stats {
namespace {

using Value = EdgeKernel::Value;

/// Streams 0, 1, 2, ... belong to the credible populations; these to what is drawn once.
constexpr std::uint64_t kDirectionStream = std::uint64_t{1} << 62;
constexpr int kPopulationsAtATime = 32;
constexpr int kSingleRunSheets = 100000;
constexpr int kBatch = 2000;  // populations between two looks at the precision

/// What remains of a population after the correction.
Population corrected(Population population, const FutureCards& future) {
  population.mean -= future.correction;
  return population;
}

/// Simulates the sheets of the credible populations first .. first + count - 1 and hands their
/// values to `use`, in any order, from several threads.
template <class Use>
void for_each_population(const FutureCards& future, const Eigen::Vector2d& direction, Value value,
                         const MonteCarlo& mc, int first, int count, const Use& use) {
  expect(count > 0 && mc.sheets > 0);
  const FutureSampler sampler = sampler_of(future);
  for_each_item(count, kPopulationsAtATime, mc.threads, [&] {
    const auto kernel =
        std::make_shared<EdgeKernel>(future.cards, direction, value, mc.sheets, mc.seed);
    const auto scratch = std::make_shared<std::vector<float>>();
    return [&, kernel, scratch](int item) {
      Random random(mc.seed, static_cast<std::uint64_t>(first + item));
      const Population population = corrected(sampler.draw(random), future);
      use(first + item, kernel->run(population, random), *scratch);
    };
  });
}

/// Covariance of the registrations as they were seen, from session to session where these differ.
Eigen::MatrixXd observed_spread(const FutureCards& future) {
  const Eigen::MatrixXd feeds = future.feeds.covariance();
  if (!future.sessions) return feeds;
  // What the feeds add to the means of their sessions is in there already.
  return feeds * (1 - 1 / future.sessions->feeds_per_session) + future.sessions->means.covariance();
}

/// Variance of how many of the `cells` values of a sheet are within the limit; values cell by cell.
double variance_of_counts(std::span<const float> values, std::size_t cells, std::size_t sheets,
                          float limit) {
  double sum = 0.0;
  double squares = 0.0;
  for (std::size_t m = 0; m < sheets; ++m) {
    int good = 0;
    for (std::size_t c = 0; c < cells; ++c) good += values[c * sheets + m] <= limit ? 1 : 0;
    sum += good;
    squares += static_cast<double>(good) * good;
  }
  const double mean = sum / static_cast<double>(sheets);
  return std::max(0.0, squares / static_cast<double>(sheets) - mean * mean);
}

float share_quantile(std::span<const float> values, double share, std::vector<float>& scratch) {
  return order_statistic(values, rank_of_share(share, values.size()), scratch);
}

}  // namespace

FutureSampler sampler_of(const FutureCards& future) {
  return {future.feeds,
          {future.measurement, future.measurement_dof},
          future.sessions,
          future.dof_share};
}

EdgeKernel::Value value_of(const FutureCards& future) {
  return future.whole_sheets ? Value::per_sheet : Value::per_card;
}

OversizeBound bound_of(std::vector<float> needed, double confidence) {
  expect(!needed.empty());
  const auto count = static_cast<double>(needed.size());
  const auto at = [&](double rank) {
    std::vector<float> scratch;
    return static_cast<double>(
        order_statistic(needed, static_cast<std::size_t>(std::clamp(rank, 1.0, count)), scratch));
  };
  // The standard error comes from the values as far apart as the rank may be wrong.
  const auto rank = static_cast<double>(rank_of_share(confidence, needed.size() + 1));
  const double off = std::max(1.0, std::round(std::sqrt(count * confidence * (1 - confidence))));
  OversizeBound bound{at(rank), (at(rank + off) - at(rank - off)) / 2, {}};
  bound.needed = std::move(needed);
  return bound;
}

std::vector<OversizeBound> oversize_bounds(const FutureCards& future,
                                           const Eigen::Vector2d& direction,
                                           std::span<const Promise> promises,
                                           const MonteCarlo& mc) {
  const int batch = mc.precision > 0 ? std::min(kBatch, mc.populations) : mc.populations;
  std::vector<std::vector<float>> needed(promises.size());
  std::vector<OversizeBound> bounds(promises.size());
  const auto is_settled = [&](const OversizeBound& b) {
    return static_cast<int>(b.needed.size()) >= mc.populations ||
           (!b.needed.empty() && b.standard_error <= mc.precision);
  };
  for (int first = 0; !std::all_of(bounds.begin(), bounds.end(), is_settled); first += batch) {
    const int count = std::min(batch, mc.populations - first);
    for (auto& list : needed) list.resize(static_cast<std::size_t>(first + count));
    for_each_population(
        future, direction, value_of(future), mc, first, count,
        [&](int item, std::span<const float> values, std::vector<float>& scratch) {
          const auto at = static_cast<std::size_t>(item);
          for (std::size_t k = 0; k < promises.size(); ++k) {
            const bool again = k > 0 && promises[k].coverage == promises[k - 1].coverage;
            needed[k][at] =
                again ? needed[k - 1][at] : share_quantile(values, promises[k].coverage, scratch);
          }
        });
    for (std::size_t k = 0; k < promises.size(); ++k) {
      if (!is_settled(bounds[k])) bounds[k] = bound_of(needed[k], promises[k].confidence);
    }
  }
  return bounds;
}

OversizeBound oversize_bound(const FutureCards& future, const Eigen::Vector2d& direction,
                             const Promise& promise, const MonteCarlo& mc) {
  return oversize_bounds(future, direction, {&promise, 1}, mc).front();
}

double oversize_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                       const Promise& promise, const MonteCarlo& mc) {
  return oversize_bound(future, direction, promise, mc).factor;
}

Eigen::Vector2d per_axis_direction(const FutureCards& future, double coverage,
                                   const MonteCarlo& mc) {
  const Population spread_only{Eigen::VectorXd::Zero(6), symmetric_root(observed_spread(future))};
  const auto quantile_along = [&](const Eigen::Vector2d& axis) {
    EdgeKernel kernel(future.cards, axis, value_of(future), kSingleRunSheets, mc.seed);
    Random random(mc.seed, kDirectionStream);
    std::vector<float> scratch;
    return static_cast<double>(
        share_quantile(kernel.run(spread_only, random), 1 - (1 - coverage) / 2, scratch));
  };
  const Eigen::Vector2d h(quantile_along({1, 0}), quantile_along({0, 1}));
  return h.cwiseMax(1e-3 * h.maxCoeff());  // an axis without any spread still gets a share
}

Yield yield_of(const FutureCards& future, const Eigen::Vector2d& oversize_mm,
               const MonteCarlo& mc) {
  // A direction of 0 would ignore the axis instead of asking for no oversize.
  const double one = 1.0;
  return yield_curve(future, oversize_mm.cwiseMax(1e-6), {&one, 1}, mc).front();
}

std::vector<Yield> yield_curve(const FutureCards& future, const Eigen::Vector2d& direction,
                               std::span<const double> multiples, const MonteCarlo& mc) {
  expect(direction.minCoeff() > 0 && !multiples.empty());
  const auto populations = static_cast<std::size_t>(mc.populations);
  const auto sheets = static_cast<std::size_t>(mc.sheets);
  const std::size_t cells = future.cards.centres.size();
  // Good cards of each population, multiple and cell: summed afterwards, in one order.
  std::vector<std::vector<std::uint32_t>> good(populations);
  std::vector<Yield> curve(multiples.size());
  for (Yield& y : curve) {
    y.cards.resize(populations);
    y.sheets.resize(populations);
    y.card_variance.resize(populations);
    y.cells.resize(cells);
  }
  for_each_population(future, direction, Value::per_card, mc, 0, mc.populations,
                      [&](int item, std::span<const float> values, std::vector<float>& worst) {
                        const auto at = static_cast<std::size_t>(item);
                        worst.assign(sheets, 0.0F);
                        for (std::size_t i = 0; i < values.size(); i += sheets) {
                          for (std::size_t m = 0; m < sheets; ++m)
                            worst[m] = std::max(worst[m], values[i + m]);
                        }
                        std::vector<std::uint32_t>& counts = good[at];
                        for (std::size_t k = 0; k < multiples.size(); ++k) {
                          const auto limit = static_cast<float>(multiples[k]);
                          const auto within = [limit](std::span<const float> list) {
                            std::uint32_t count = 0;
                            for (const float value : list) count += value <= limit ? 1U : 0U;
                            return count;
                          };
                          std::uint32_t sum = 0;
                          for (std::size_t c = 0; c < cells; ++c) {
                            counts.push_back(within(values.subspan(c * sheets, sheets)));
                            sum += counts.back();
                          }
                          curve[k].cards[at] = sum / static_cast<double>(cells * sheets);
                          curve[k].card_variance[at] =
                              variance_of_counts(values, cells, sheets, limit);
                          curve[k].sheets[at] = within(worst) / static_cast<double>(sheets);
                        }
                      });
  for (std::size_t k = 0; k < multiples.size(); ++k) {
    for (std::size_t c = 0; c < cells; ++c) {
      double sum = 0.0;
      for (const auto& counts : good) sum += counts[k * cells + c];
      curve[k].cells[c] = sum / static_cast<double>(populations * sheets);
    }
  }
  return curve;
}

Band band_of(std::vector<double> values) {
  expect(!values.empty());
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) { return values[rank_of_share(share, values.size()) - 1]; };
  return {std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size()),
          at(0.05), at(0.95)};
}

}  // namespace versolay::stats
