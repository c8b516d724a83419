// Does a sample look normal?
#pragma once

#include <span>

namespace versolay::stats {

struct AndersonDarling {
  double a2 = 0.0;        // statistic, mean and sd estimated
  double adjusted = 0.0;  // times 1 + 0.75 / n + 2.25 / n^2
  double p_value = 1.0;
};

/// Anderson-Darling test of normality with unknown mean and sd: the test for tails.
/// Preconditions: at least 8 values, not all equal.
/// Source  D'Agostino & Stephens, Goodness-of-Fit Techniques, 1986, table 4.9.
AndersonDarling anderson_darling(std::span<const double> values);

}  // namespace versolay::stats
