#include "stats/normality.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <numeric>
#include <vector>

#include "core/expect.h"

namespace versolay::stats {
namespace {

double p_value_of(double adjusted) {
  const double a = adjusted;
  if (a >= 10) return 0.0;
  if (a >= 0.6) return std::exp(1.2937 - 5.709 * a + 0.0186 * a * a);
  if (a >= 0.34) return std::exp(0.9177 - 4.279 * a - 1.38 * a * a);
  if (a >= 0.2) return 1 - std::exp(-8.318 + 42.796 * a - 59.938 * a * a);
  return 1 - std::exp(-13.436 + 101.14 * a - 223.73 * a * a);
}

}  // namespace

AndersonDarling anderson_darling(std::span<const double> values) {
  expect(values.size() >= 8);
  const auto n = static_cast<double>(values.size());
  std::vector<double> sorted(values.begin(), values.end());
  std::sort(sorted.begin(), sorted.end());
  const double mean = std::accumulate(sorted.begin(), sorted.end(), 0.0) / n;
  double squares = 0.0;
  for (double v : sorted) squares += (v - mean) * (v - mean);
  const double sd = std::sqrt(squares / (n - 1));
  expect(sd > 0);
  const boost::math::normal standard;
  double sum = 0.0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const double low = (sorted[i] - mean) / sd;
    const double high = (sorted[sorted.size() - 1 - i] - mean) / sd;
    sum += (2.0 * static_cast<double>(i) + 1) *
           (std::log(cdf(standard, low)) + std::log(cdf(complement(standard, high))));
  }
  AndersonDarling test;
  test.a2 = -n - sum / n;
  test.adjusted = test.a2 * (1 + 0.75 / n + 2.25 / (n * n));
  test.p_value = std::clamp(p_value_of(test.adjusted), 0.0, 1.0);
  return test;
}

}  // namespace versolay::stats
