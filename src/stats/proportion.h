// Counts of good and bad: exact bounds, and how many to make.
#pragma once

#include <optional>
#include <span>

namespace versolay::stats {

/// Upper confidence bound of a proportion after `events` in `trials`, one-sided.
/// Source  Clopper & Pearson, Biometrika 26, 1934.
double clopper_pearson_upper(int events, int trials, double confidence);
double clopper_pearson_lower(int events, int trials, double confidence);

/// Probability of at least `wanted` successes in `trials`, success probability p.
double probability_of_at_least(int wanted, int trials, double p);

/// The smallest number of sheets of which at least `wanted` are good with the given assurance,
/// when the chance of a good sheet is one of `good_chances`, each equally credible (so that the
/// assurance counts what is not known about the chance). nullopt: more than `most` would be needed.
std::optional<int> sheets_to_print(int wanted, std::span<const double> good_chances,
                                   double assurance, int most);

/// Good items of a batch: how many on average, and their variance from batch to batch.
struct BatchYield {
  double mean = 0.0;
  double variance = 0.0;
};
/// The same for single items: batches to make so that at least `wanted` items are good, each of
/// `yields` equally credible; the sum of many batches is taken for normal.
std::optional<int> batches_to_make(int wanted, std::span<const BatchYield> yields, double assurance,
                                   int most);

}  // namespace versolay::stats
