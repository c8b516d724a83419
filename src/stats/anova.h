// Do several groups share one mean?
#pragma once

#include <span>

#include "stats/sample.h"

namespace versolay::stats {

struct FTest {
  double f = 0.0;
  int df1 = 0;
  int df2 = 0;
  double p_value = 1.0;
};

/// One-way analysis of variance of one component. Preconditions: at least two groups, and a scatter
/// within them.
FTest one_way_anova(std::span<const Sample> groups, int component);

}  // namespace versolay::stats
