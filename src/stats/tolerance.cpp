#include "stats/tolerance.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <vector>

#include "core/expect.h"

namespace versolay::stats {
namespace {

using boost::math::chi_squared;
using boost::math::normal;

double z_quantile(double probability) { return quantile(normal(), probability); }

/// r with Phi(offset + r) - Phi(offset - r) = coverage.
double covering_half_width(double offset, double coverage) {
  const normal standard;
  const auto excess = [&](double r) {
    return cdf(standard, offset + r) - cdf(standard, offset - r) - coverage;
  };
  const double centred = z_quantile((1 + coverage) / 2);
  std::uintmax_t steps = 200;
  const auto [low, high] =
      boost::math::tools::toms748_solve(excess, centred * (1 - 1e-12), offset + centred + 1e-9,
                                        boost::math::tools::eps_tolerance<double>(48), steps);
  return (low + high) / 2;
}

/// Nodes and weights on 0..10 of the integral against 2 phi(z); beyond 10 the mass is 1e-23.
struct Node {
  double z;
  double weight;
};

std::vector<Node> half_normal_nodes() {
  using Rule = boost::math::quadrature::gauss<double, 30>;
  std::vector<Node> nodes;
  for (const auto& [from, to] : {std::pair{0.0, 2.0}, {2.0, 4.0}, {4.0, 6.0}, {6.0, 10.0}}) {
    const double half = (to - from) / 2;
    const double middle = (from + to) / 2;
    for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
      for (double side : {-1.0, 1.0}) {
        const double z = middle + side * half * Rule::abscissa()[i];
        nodes.push_back({z, Rule::weights()[i] * half * 2 * pdf(normal(), z)});
      }
    }
  }
  return nodes;
}

void check(double coverage, double confidence) {
  expect(coverage > 0 && coverage < 1 && confidence > 0 && confidence < 1);
  (void)coverage;
  (void)confidence;
}

}  // namespace

double two_sided_factor(const ToleranceSample& sample, double coverage, double confidence) {
  check(coverage, confidence);
  expect(sample.mean_n > 0 && sample.dof >= 1);
  std::vector<Node> nodes = half_normal_nodes();
  std::vector<double> half_widths;
  for (const Node& node : nodes) {
    half_widths.push_back(covering_half_width(node.z / std::sqrt(sample.mean_n), coverage));
  }
  const chi_squared spread(sample.dof);
  const auto excess = [&](double k) {
    double sum = 0.0;
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      const double ratio = half_widths[i] / k;
      sum += nodes[i].weight * cdf(complement(spread, sample.dof * ratio * ratio));
    }
    return sum - confidence;
  };
  std::uintmax_t steps = 200;
  const auto [low, high] = boost::math::tools::bracket_and_solve_root(
      excess, two_sided_factor_howe(sample, coverage, confidence), 1.5, true,
      boost::math::tools::eps_tolerance<double>(46), steps);
  return (low + high) / 2;
}

double two_sided_factor_howe(const ToleranceSample& sample, double coverage, double confidence) {
  check(coverage, confidence);
  const double lower = quantile(chi_squared(sample.dof), 1 - confidence);
  return z_quantile((1 + coverage) / 2) * std::sqrt(sample.dof * (1 + 1 / sample.mean_n) / lower);
}

double one_sided_factor(int n, double coverage, double confidence) {
  check(coverage, confidence);
  expect(n >= 2);
  const double root_n = std::sqrt(static_cast<double>(n));
  const boost::math::non_central_t t(n - 1, z_quantile(coverage) * root_n);
  return quantile(t, confidence) / root_n;
}

double one_sided_factor_approximate(int n, double coverage, double confidence) {
  check(coverage, confidence);
  const double zp = z_quantile(coverage);
  const double zg = z_quantile(confidence);
  const double a = 1 - zg * zg / (2.0 * (n - 1));
  const double b = zp * zp - zg * zg / n;
  return (zp + std::sqrt(zp * zp - a * b)) / a;
}

}  // namespace versolay::stats
