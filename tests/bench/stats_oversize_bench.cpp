// The Monte Carlo behind `advise`: 20,000 populations x 2,000 sheets x 9 cards.
#include <benchmark/benchmark.h>

#include "stats/oversize_bound.h"

namespace versolay::stats {
namespace {

FutureCards nine_cards(double cut_sd_mm) {
  FutureCards future;
  future.feeds.n = 8;
  future.feeds.dof = 7;
  future.feeds.mean = Eigen::VectorXd::Zero(6);
  future.feeds.scatter = Eigen::MatrixXd::Zero(6, 6);
  future.feeds.scatter.diagonal().head<3>() << 7 * 0.04, 7 * 0.03, 7 * 0.9;
  future.cards.width_mm = 63;
  future.cards.height_mm = 88;
  future.cards.cut_sd_mm = cut_sd_mm;
  for (int row = -1; row <= 1; ++row) {
    for (int column = -1; column <= 1; ++column) {
      future.cards.centres.push_back({column * 63.0, row * 88.0});
    }
  }
  return future;
}

void BM_OversizeFactor(benchmark::State& state) {
  const FutureCards future = nine_cards(0.0);
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        oversize_factor(future, {1, 1}, {}, {.threads = static_cast<int>(state.range(0))}));
  }
}
BENCHMARK(BM_OversizeFactor)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

void BM_OversizeFactorWithCutError(benchmark::State& state) {
  const FutureCards future = nine_cards(0.1);
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        oversize_factor(future, {1, 1}, {}, {.threads = static_cast<int>(state.range(0))}));
  }
}
BENCHMARK(BM_OversizeFactorWithCutError)
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

void BM_YieldOf(benchmark::State& state) {
  const FutureCards future = nine_cards(0.0);
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        yield_of(future, {0.8, 0.8}, {.threads = static_cast<int>(state.range(0))}));
  }
}
BENCHMARK(BM_YieldOf)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace versolay::stats

BENCHMARK_MAIN();
