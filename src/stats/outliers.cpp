#include "stats/outliers.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numeric>

#include "core/expect.h"

namespace versolay::stats {
namespace {

double median_of(std::vector<double> values) {
  expect(!values.empty());
  std::sort(values.begin(), values.end());
  const std::size_t middle = values.size() / 2;
  return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

/// The value farthest from the mean of those left, in standard deviations.
EsdStep farthest(std::span<const double> values, std::span<const int> left) {
  const auto n = static_cast<double>(left.size());
  double mean = 0.0;
  for (int i : left) mean += values[static_cast<std::size_t>(i)] / n;
  double squares = 0.0;
  EsdStep step;
  double largest = -1.0;
  for (int i : left) {
    const double off = std::abs(values[static_cast<std::size_t>(i)] - mean);
    squares += off * off;
    if (off > largest) {
      largest = off;
      step.index = i;
    }
  }
  const double sd = std::sqrt(squares / (n - 1));
  step.statistic = sd > 0 ? largest / sd : 0.0;
  return step;
}

}  // namespace

double grubbs_critical(int n, double alpha) {
  expect(n >= 3);
  const boost::math::students_t student(n - 2);
  const double t = quantile(complement(student, alpha / (2.0 * n)));
  return (n - 1) / std::sqrt(static_cast<double>(n)) * std::sqrt(t * t / (n - 2 + t * t));
}

std::vector<EsdStep> generalised_esd(std::span<const double> values, int most, double alpha) {
  expect(most >= 1 && values.size() >= static_cast<std::size_t>(most) + 2);
  std::vector<int> left(values.size());
  std::iota(left.begin(), left.end(), 0);
  std::vector<EsdStep> steps;
  for (int i = 0; i < most; ++i) {
    EsdStep step = farthest(values, left);
    step.critical = grubbs_critical(static_cast<int>(left.size()), alpha);
    left.erase(std::find(left.begin(), left.end(), step.index));
    steps.push_back(step);
  }
  return steps;
}

int outliers_found(std::span<const EsdStep> steps) {
  int found = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i].statistic > steps[i].critical) found = static_cast<int>(i) + 1;
  }
  return found;
}

RobustSummary robust_summary(std::span<const double> values) {
  const double median = median_of({values.begin(), values.end()});
  std::vector<double> off;
  for (double v : values) off.push_back(std::abs(v - median));
  return {median, 1.4826 * median_of(std::move(off))};
}

std::vector<Outlier> find_outliers(std::span<const double> values, const GrossLimits& limits) {
  const int n = static_cast<int>(values.size());
  if (n < 4) return {};
  const std::vector<EsdStep> steps = generalised_esd(values, std::max(1, n / 5), limits.alpha);
  const RobustSummary robust = robust_summary(values);
  std::vector<Outlier> list;
  for (int i = 0; i < outliers_found(steps); ++i) {
    Outlier outlier;
    outlier.index = steps[static_cast<std::size_t>(i)].index;
    outlier.deviation = values[static_cast<std::size_t>(outlier.index)] - robust.median;
    outlier.gross = std::abs(outlier.deviation) > limits.gross &&
                    std::abs(outlier.deviation) > limits.robust_sds * robust.sd;
    list.push_back(outlier);
  }
  return list;
}

std::vector<Outlier> gross_outliers(std::span<const double> values, const GrossLimits& limits) {
  std::vector<Outlier> list = find_outliers(values, limits);
  std::erase_if(list, [](const Outlier& o) { return !o.gross; });
  return list;
}

}  // namespace versolay::stats
