#include "stats/gauge.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>

#include "stats/variance_components.h"

namespace versolay::stats {
namespace {

constexpr double kCategoriesFactor = 1.41;
constexpr int kMostCategories = 1'000'000;  // a gauge without any scatter

Sample sample_of_values(const std::vector<double>& values) {
  Eigen::MatrixXd rows(static_cast<Eigen::Index>(values.size()), 1);
  for (std::size_t i = 0; i < values.size(); ++i) {
    rows(static_cast<Eigen::Index>(i), 0) = values[i];
  }
  return sample_of(rows);
}

/// Limits of a standard deviation: sd * sqrt(dof / chi2 quantile).
double sd_limit(const PooledSd& s, double probability) {
  const boost::math::chi_squared chi2(s.dof);
  return s.sd * std::sqrt(s.dof / quantile(chi2, probability));
}

ProcessSpread process_spread(const std::vector<Sample>& items, const PooledSd& repeatability) {
  const double gauge_variance = repeatability.sd * repeatability.sd;
  ProcessSpread process;
  const VarianceComponents v = variance_components(items, 0);
  process.sd = std::sqrt(v.between);
  process.distinguishable = v.between > 0.0;
  const double seen = std::sqrt(v.f * gauge_variance / v.group_size);
  process.sd_high = sd_limit({seen, v.df_between}, 0.05);
  process.share = gauge_variance / (gauge_variance + v.between);
  process.distinct_categories = distinct_categories(process.sd, repeatability.sd);
  return process;
}

}  // namespace

PooledSd pooled_sd(const std::vector<PooledSd>& parts) {
  double squares = 0.0;
  PooledSd all;
  for (const PooledSd& part : parts) {
    squares += part.dof * part.sd * part.sd;
    all.dof += part.dof;
  }
  if (all.dof > 0) all.sd = std::sqrt(squares / all.dof);
  return all;
}

int distinct_categories(double process_sd, double gauge_sd) {
  return static_cast<int>(
      std::min<double>(kMostCategories, std::floor(kCategoriesFactor * process_sd / gauge_sd)));
}

std::optional<GaugeStudy> gauge_study(const std::vector<std::vector<double>>& items) {
  std::vector<Sample> samples;
  std::vector<PooledSd> sds;
  for (const std::vector<double>& values : items) {
    if (values.empty()) continue;
    samples.push_back(sample_of_values(values));
    const Sample& s = samples.back();
    if (s.dof > 0) sds.push_back({std::sqrt(s.scatter(0, 0) / s.dof), s.dof});
  }
  GaugeStudy study;
  study.repeatability = pooled_sd(sds);
  if (study.repeatability.dof == 0) return std::nullopt;
  study.sd_low = sd_limit(study.repeatability, 0.975);
  study.sd_high = sd_limit(study.repeatability, 0.025);
  study.enough_repeats = study.repeatability.dof >= kEnoughRepeats;
  if (samples.size() > 1 && study.repeatability.sd > 0.0) {
    study.process = process_spread(samples, study.repeatability);
  }
  return study;
}

}  // namespace versolay::stats
