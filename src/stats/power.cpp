#include "stats/power.h"

#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "core/expect.h"

namespace versolay::stats {
namespace {

/// Noncentrality at which a t test with `dof` degrees of freedom has the power.
double noncentrality_of(double dof, double alpha, double power) {
  const double critical = quantile(complement(boost::math::students_t(dof), alpha / 2));
  const auto lacking = [&](double delta) {
    const boost::math::non_central_t t(dof, delta);
    return cdf(complement(t, critical)) + cdf(t, -critical) - power;
  };
  std::uintmax_t steps = 200;
  const auto [low, high] = boost::math::tools::bracket_and_solve_root(
      lacking, critical + 1, 1.5, true, boost::math::tools::eps_tolerance<double>(30), steps);
  return (low + high) / 2;
}

}  // namespace

double detectable_mean(int n, double alpha, double power) {
  expect(n >= 2 && power > alpha);
  return noncentrality_of(n - 1, alpha, power) / std::sqrt(static_cast<double>(n));
}

double detectable_difference(int n, double alpha, double power) {
  expect(n >= 2 && power > alpha);
  return noncentrality_of(2 * n - 2, alpha, power) * std::sqrt(2.0 / n);
}

double detectable_spread_ratio(int n, double alpha, double power) {
  expect(n >= 2);
  const boost::math::normal standard;
  const double z = quantile(standard, 1 - alpha / 2) + quantile(standard, power);
  // Variance of the log of a normal sample's sd: 1 / (2 (n - 1)).
  return std::exp(z * std::sqrt(1.0 / (n - 1)));
}

}  // namespace versolay::stats
