#include "stats/two_sample.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numeric>

#include "core/expect.h"
#include "core/linear_algebra.h"
#include "stats/outliers.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

/// Units apart: mm, mrad and ppm are brought to one scale before anything is inverted.
Eigen::MatrixXd scaled(const Eigen::MatrixXd& m, const Eigen::VectorXd& scale) {
  return scale.cwiseInverse().asDiagonal() * m * scale.cwiseInverse().asDiagonal();
}

std::vector<double> about_median(std::span<const double> values) {
  const double median = robust_summary(values).median;
  std::vector<double> off;
  for (double v : values) off.push_back(v - median);
  return off;
}

double sd_of(std::span<const double> values) {
  const auto n = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double squares = 0.0;
  for (double v : values) squares += (v - mean) * (v - mean);
  return std::sqrt(squares / (n - 1));
}

double trimmed_mean(std::span<const double> values) {
  std::vector<double> sorted(values.begin(), values.end());
  std::sort(sorted.begin(), sorted.end());
  // Bonett: the share 1 / (2 sqrt(n - 4)) is cut off at either end.
  const auto n = static_cast<double>(sorted.size());
  const auto cut = n > 4 ? static_cast<std::size_t>(n / (2 * std::sqrt(n - 4))) : std::size_t{0};
  const std::size_t off = std::min(cut, (sorted.size() - 1) / 2);
  const auto from = sorted.begin() + static_cast<std::ptrdiff_t>(off);
  const auto to = sorted.end() - static_cast<std::ptrdiff_t>(off);
  return std::accumulate(from, to, 0.0) / static_cast<double>(to - from);
}

/// Pooled kurtosis (3 for normal samples).
double pooled_kurtosis(std::span<const double> a, std::span<const double> b) {
  double fourth = 0.0;
  double squares = 0.0;
  for (const auto& group : {a, b}) {
    const double centre = trimmed_mean(group);
    const auto n = static_cast<double>(group.size());
    for (double v : group) fourth += std::pow(v - centre, 4);
    squares += (n - 1) * sd_of(group) * sd_of(group);
  }
  return static_cast<double>(a.size() + b.size()) * fourth / (squares * squares);
}

/// Two-sided p of the log ratio of mean absolute deviations under exchange between the groups.
double permutation_p(std::span<const double> a, std::span<const double> b, std::uint64_t seed) {
  constexpr int kPermutations = 4999;
  std::vector<double> off;
  for (double v : about_median(a)) off.push_back(std::abs(v));
  for (double v : about_median(b)) off.push_back(std::abs(v));
  const double total = std::accumulate(off.begin(), off.end(), 0.0);
  const auto statistic = [&] {
    const double of_a =
        std::accumulate(off.begin(), off.begin() + static_cast<std::ptrdiff_t>(a.size()), 0.0);
    const double mean_a = of_a / static_cast<double>(a.size());
    const double mean_b = (total - of_a) / static_cast<double>(b.size());
    return std::abs(std::log(std::max(mean_b, 1e-300) / std::max(mean_a, 1e-300)));
  };
  const double observed = statistic() * (1 - 1e-12);
  Random random(seed);
  int as_extreme = 1;
  for (int i = 0; i < kPermutations; ++i) {
    for (std::size_t k = off.size(); k > 1; --k) {
      const auto other = static_cast<std::size_t>(random.uniform() * static_cast<double>(k));
      std::swap(off[k - 1], off[other]);
    }
    as_extreme += statistic() >= observed ? 1 : 0;
  }
  return static_cast<double>(as_extreme) / (kPermutations + 1);
}

}  // namespace

bool two_sample_is_possible(const Sample& a, const Sample& b) {
  return a.dof >= a.mean.size() && b.dof >= b.mean.size() && !is_singular(a.scatter) &&
         !is_singular(b.scatter);
}

TwoSampleT2 krishnamoorthy_yu(const Sample& a, const Sample& b) {
  expect(two_sample_is_possible(a, b));
  const auto p = static_cast<double>(a.mean.size());
  const Eigen::VectorXd scale = (a.covariance().diagonal() + b.covariance().diagonal()).cwiseSqrt();
  const Eigen::MatrixXd of_a = scaled(a.covariance(), scale) / a.n;
  const Eigen::MatrixXd of_b = scaled(b.covariance(), scale) / b.n;
  const Eigen::MatrixXd inverse = Cholesky(of_a + of_b).inverse();
  const Eigen::VectorXd difference = (a.mean - b.mean).cwiseQuotient(scale);
  const auto part = [&](const Eigen::MatrixXd& covariance_of_mean, int dof) {
    const Eigen::MatrixXd m = product(covariance_of_mean, inverse);
    const double trace = m.trace();
    return ((m * m).trace() + trace * trace) / dof;
  };
  TwoSampleT2 test;
  test.t2 = difference.dot(inverse * difference);
  test.nu = (p + p * p) / (part(of_a, a.dof) + part(of_b, b.dof));
  test.f = test.t2 * (test.nu - p + 1) / (test.nu * p);
  test.p_value = cdf(complement(boost::math::fisher_f(p, test.nu - p + 1), test.f));
  return test;
}

Interval welch_difference(const Sample& a, const Sample& b, int component, double confidence) {
  expect(a.dof >= 1 && b.dof >= 1);
  const double va = a.covariance()(component, component) / a.n;
  const double vb = b.covariance()(component, component) / b.n;
  Interval d;
  d.estimate = b.mean[component] - a.mean[component];
  if (va + vb <= 0) {
    d.low = d.high = d.estimate;
    d.p_value = d.estimate == 0 ? 1.0 : 0.0;
    return d;
  }
  const double dof = (va + vb) * (va + vb) / (va * va / a.dof + vb * vb / b.dof);
  const boost::math::students_t student(dof);
  const double se = std::sqrt(va + vb);
  const double half = se * quantile(student, (1 + confidence) / 2);
  d.low = d.estimate - half;
  d.high = d.estimate + half;
  d.p_value = 2 * cdf(complement(student, std::abs(d.estimate) / se));
  return d;
}

BrownForsythe brown_forsythe(std::span<const std::vector<double>> groups) {
  expect(groups.size() >= 2);
  std::vector<std::vector<double>> off;
  double sum = 0.0;
  int n = 0;
  for (const auto& group : groups) {
    expect(group.size() >= 3);
    off.push_back(about_median(group));
    for (double& v : off.back()) {
      v = std::abs(v);
      sum += v;
    }
    n += static_cast<int>(group.size());
  }
  double between = 0.0;
  double within = 0.0;
  for (const auto& group : off) {
    const auto size = static_cast<double>(group.size());
    const double mean = std::accumulate(group.begin(), group.end(), 0.0) / size;
    between += size * (mean - sum / n) * (mean - sum / n);
    for (double v : group) within += (v - mean) * (v - mean);
  }
  BrownForsythe test;
  test.df1 = static_cast<int>(groups.size()) - 1;
  test.df2 = n - static_cast<int>(groups.size());
  if (within <= 0) return test;
  test.f = (between / test.df1) / (within / test.df2);
  test.p_value = cdf(complement(boost::math::fisher_f(test.df1, test.df2), test.f));
  return test;
}

Interval spread_ratio(std::span<const double> a, std::span<const double> b, double confidence,
                      std::uint64_t seed) {
  expect(a.size() >= 4 && b.size() >= 4 && sd_of(a) > 0 && sd_of(b) > 0);
  const double kurtosis = pooled_kurtosis(a, b);
  const auto variance_of_log = [kurtosis](std::span<const double> group) {
    const auto n = static_cast<double>(group.size());
    return (kurtosis - (n - 3) / n) / (n - 1);
  };
  const double se = std::sqrt(std::max(1e-12, variance_of_log(a) + variance_of_log(b)));
  const double z = quantile(boost::math::normal(), (1 + confidence) / 2);
  Interval r;
  r.estimate = sd_of(b) / sd_of(a);
  r.low = r.estimate * std::exp(-z * se / 2);
  r.high = r.estimate * std::exp(z * se / 2);
  r.p_value = permutation_p(a, b, seed);
  return r;
}

}  // namespace versolay::stats
