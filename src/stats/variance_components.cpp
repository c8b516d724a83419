#include "stats/variance_components.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>

#include "stats/anova.h"

namespace versolay::stats {

VarianceComponents variance_components(std::span<const Sample> groups, int component) {
  const FTest test = one_way_anova(groups, component);
  const Sample all = pooled(groups);
  double squares = 0.0;
  for (const Sample& g : groups) squares += static_cast<double>(g.n) * g.n;

  VarianceComponents v;
  v.df_between = test.df1;
  v.df_within = test.df2;
  v.f = test.f;
  v.p_value = test.p_value;
  v.within = all.scatter(component, component) / all.dof;
  v.group_size = (all.n - squares / all.n) / test.df1;
  const double within_square = v.within;
  const double between_square = test.f * within_square;
  v.between = std::max(0.0, (between_square - within_square) / v.group_size);
  // Clipped, REML counts all of the variance as variance within.
  if (v.between == 0.0) {
    v.within = (test.df1 * between_square + all.scatter(component, component)) / (all.n - 1);
  }

  constexpr double kTail = 0.05;
  const boost::math::fisher_f ratio(test.df1, test.df2);
  const boost::math::chi_squared chi2(test.df1);
  const auto limit = [&](double f_quantile, double chi2_quantile) {
    return std::max(0.0, test.df1 * (between_square - f_quantile * within_square) /
                             (v.group_size * chi2_quantile));
  };
  v.between_low = limit(quantile(complement(ratio, kTail)), quantile(complement(chi2, kTail)));
  v.between_high = limit(quantile(ratio, kTail), quantile(chi2, kTail));
  return v;
}

}  // namespace versolay::stats
