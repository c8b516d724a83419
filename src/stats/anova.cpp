#include "stats/anova.h"

#include <boost/math/distributions/fisher_f.hpp>

#include "core/expect.h"

namespace versolay::stats {

FTest one_way_anova(std::span<const Sample> groups, int component) {
  const Sample all = pooled(groups);
  FTest test;
  test.df1 = static_cast<int>(groups.size()) - 1;
  test.df2 = all.dof;
  expect(test.df1 >= 1 && test.df2 >= 1 && all.scatter(component, component) > 0);
  double between = 0.0;
  for (const Sample& g : groups) {
    const double off = g.mean[component] - all.mean[component];
    between += g.n * off * off;
  }
  test.f = (between / test.df1) / (all.scatter(component, component) / test.df2);
  test.p_value = cdf(complement(boost::math::fisher_f(test.df1, test.df2), test.f));
  return test;
}

}  // namespace versolay::stats
