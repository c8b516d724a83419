// How much of a variance is from group to group, how much within the groups.
#pragma once

#include <span>

#include "stats/sample.h"

namespace versolay::stats {

struct VarianceComponents {
  double between = 0.0;      // variance from group to group, 0 where the estimate is negative
  double between_low = 0.0;  // 90 % confidence interval
  double between_high = 0.0;
  double within = 0.0;      // variance inside a group
  double group_size = 0.0;  // n0: the effective one where the groups differ in size
  double f = 0.0;
  double p_value = 1.0;  // of "between = 0"
  int df_between = 0;
  int df_within = 0;
};

/// One-way random effects of one component by analysis of variance; with equal group sizes this is
/// REML, clipped at 0. Preconditions: at least two groups, scatter within them.
/// Source  Searle, Casella & McCulloch, Variance Components, 1992, sections 3.6 and 4.4; interval:
/// Williams, Biometrika 49, 1962.
VarianceComponents variance_components(std::span<const Sample> groups, int component);

}  // namespace versolay::stats
