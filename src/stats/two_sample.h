// Do two set-ups differ, in the mean and in the spread?
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <span>
#include <vector>

#include "stats/sample.h"

namespace versolay::stats {

struct TwoSampleT2 {
  double t2 = 0.0;
  double nu = 0.0;  // approximate degrees of freedom
  double f = 0.0;
  double p_value = 1.0;
};

/// Two-sample T2 of equal means, covariances unequal. Preconditions: equal dimensions p, n of each
/// > p (see two_sample_is_possible).
/// Source  Krishnamoorthy & Yu, Statistics & Probability Letters 66, 2004 (modified Nel-Van der
/// Merwe test).
TwoSampleT2 krishnamoorthy_yu(const Sample& a, const Sample& b);
bool two_sample_is_possible(const Sample& a, const Sample& b);

struct Interval {
  double estimate = 0.0;
  double low = 0.0;
  double high = 0.0;
  double p_value = 1.0;  // of "no difference"
};

/// Difference b - a of the means of one component, Welch's t. Precondition: dof >= 1 each.
Interval welch_difference(const Sample& a, const Sample& b, int component, double confidence);

/// Levene's test with deviations from the medians: equal spread of several groups.
/// Preconditions: at least two groups of at least 3 values.
/// Source  Brown & Forsythe, JASA 69, 1974.
struct BrownForsythe {
  double f = 0.0;
  int df1 = 0;
  int df2 = 0;
  double p_value = 1.0;
};
BrownForsythe brown_forsythe(std::span<const std::vector<double>> groups);

/// sd of b over sd of a, with an interval that allows for tails heavier than normal.
/// `p_value` is that of a permutation test (values about their medians change groups).
/// Preconditions: at least 4 values each, not all equal.
/// Source  Bonett, Applied Psychological Measurement 30, 2006 (interval); Good, Permutation,
/// Parametric and Bootstrap Tests of Hypotheses, 2005, section 3.7 (test).
Interval spread_ratio(std::span<const double> a, std::span<const double> b, double confidence,
                      std::uint64_t seed);

}  // namespace versolay::stats
