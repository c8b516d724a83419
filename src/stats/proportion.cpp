#include "stats/proportion.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>

#include "core/expect.h"

namespace versolay::stats {

double clopper_pearson_upper(int events, int trials, double confidence) {
  expect(events >= 0 && events <= trials);
  if (events == trials) return 1.0;
  return quantile(boost::math::beta_distribution<>(events + 1, trials - events), confidence);
}

double clopper_pearson_lower(int events, int trials, double confidence) {
  return 1.0 - clopper_pearson_upper(trials - events, trials, confidence);
}

double probability_of_at_least(int wanted, int trials, double p) {
  if (wanted <= 0) return 1.0;
  if (wanted > trials) return 0.0;
  return boost::math::ibeta(wanted, trials - wanted + 1, p);
}

namespace {

/// The least number in from..most that is enough; nullopt: most is not.
template <class Enough>
std::optional<int> least_that_is(const Enough& enough, int from, int most) {
  if (most < from || !enough(most)) return std::nullopt;
  int too_few = from - 1;
  int sufficient = most;
  while (sufficient - too_few > 1) {
    const int middle = too_few + (sufficient - too_few) / 2;
    (enough(middle) ? sufficient : too_few) = middle;
  }
  return sufficient;
}

}  // namespace

std::optional<int> sheets_to_print(int wanted, std::span<const double> good_chances,
                                   double assurance, int most) {
  expect(wanted >= 1 && !good_chances.empty());
  const auto enough = [&](int sheets) {
    double sum = 0.0;
    for (double p : good_chances) sum += probability_of_at_least(wanted, sheets, p);
    return sum >= assurance * static_cast<double>(good_chances.size());
  };
  return least_that_is(enough, wanted, most);
}

std::optional<int> batches_to_make(int wanted, std::span<const BatchYield> yields, double assurance,
                                   int most) {
  expect(wanted >= 1 && !yields.empty());
  const auto enough = [&](int batches) {
    double sum = 0.0;
    for (const BatchYield& y : yields) {
      const double short_by = wanted - 0.5 - batches * y.mean;
      const double sd = std::sqrt(batches * y.variance);
      sum += sd > 0 ? cdf(complement(boost::math::normal(), short_by / sd)) : short_by < 0;
    }
    return sum >= assurance * static_cast<double>(yields.size());
  };
  return least_that_is(enough, 1, most);
}

}  // namespace versolay::stats
