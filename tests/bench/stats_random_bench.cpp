// Our random numbers against Boost.Random's on the same engine: DEVELOPERS.md has the figures.
#include <benchmark/benchmark.h>

#include <boost/random/chi_squared_distribution.hpp>
#include <boost/random/normal_distribution.hpp>
#include <random>
#include <vector>

#include "stats/random.h"

namespace versolay::stats {
namespace {

void BM_Normal(benchmark::State& state) {
  Random random(1);
  for (auto _ : state) benchmark::DoNotOptimize(random.normal());
}
BENCHMARK(BM_Normal);

void BM_NormalOfBoost(benchmark::State& state) {
  std::mt19937_64 engine(1);
  boost::random::normal_distribution<double> normal;
  for (auto _ : state) benchmark::DoNotOptimize(normal(engine));
}
BENCHMARK(BM_NormalOfBoost);

void BM_Normals(benchmark::State& state) {
  Random random(1);
  std::vector<float> values(9000);
  for (auto _ : state) {
    random.fill_normal(values);
    benchmark::DoNotOptimize(values.data());
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(values.size()));
}
BENCHMARK(BM_Normals);

void BM_NormalsOfBoost(benchmark::State& state) {
  std::mt19937_64 engine(1);
  boost::random::normal_distribution<double> normal;
  std::vector<float> values(9000);
  for (auto _ : state) {
    for (float& value : values) value = static_cast<float>(normal(engine));
    benchmark::DoNotOptimize(values.data());
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(values.size()));
}
BENCHMARK(BM_NormalsOfBoost);

void BM_ChiSquared(benchmark::State& state) {
  Random random(1);
  for (auto _ : state) benchmark::DoNotOptimize(random.chi_squared(7.0));
}
BENCHMARK(BM_ChiSquared);

void BM_ChiSquaredOfBoost(benchmark::State& state) {
  std::mt19937_64 engine(1);
  boost::random::chi_squared_distribution<double> chi_squared(7.0);
  for (auto _ : state) benchmark::DoNotOptimize(chi_squared(engine));
}
BENCHMARK(BM_ChiSquaredOfBoost);

}  // namespace
}  // namespace versolay::stats
