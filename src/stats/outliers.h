// Values that do not belong to the rest of a normal sample.
#pragma once

#include <span>
#include <vector>

namespace versolay::stats {

struct EsdStep {
  int index = 0;           // of the value that sticks out most among those left
  double statistic = 0.0;  // R_i = |value - mean| / sd of those left
  double critical = 0.0;   // lambda_i
};

/// Generalised extreme studentised deviate test: up to `most` outliers, without knowing how many.
/// The first k steps are outliers, k the last step whose statistic exceeds its critical value.
/// Preconditions: most >= 1, values.size() >= most + 2.
/// Source  Rosner, Technometrics 25(2), 1983; NIST/SEMATECH e-Handbook 1.3.5.17.3.
std::vector<EsdStep> generalised_esd(std::span<const double> values, int most, double alpha);
int outliers_found(std::span<const EsdStep> steps);

/// Two-sided Grubbs limit of one outlier among n. Source  NIST/SEMATECH e-Handbook 1.3.5.17.1.
double grubbs_critical(int n, double alpha);

/// Median and 1.4826 times the median absolute deviation: they survive half the values being wrong.
struct RobustSummary {
  double median = 0.0;
  double sd = 0.0;
};
RobustSummary robust_summary(std::span<const double> values);

struct GrossLimits {
  double alpha = 0.01;
  double gross = 1.0;       // farther than this from the median, in the unit of the values ...
  double robust_sds = 5.0;  // ... and than this many robust standard deviations
};

struct Outlier {
  int index = 0;
  double deviation = 0.0;  // from the median
  bool gross = false;      // beyond both limits of GrossLimits
};

/// Outliers by the generalised ESD test, at most max(1, n / 5) of them, the farthest first.
/// With fewer than 4 values, none can be identified.
std::vector<Outlier> find_outliers(std::span<const double> values, const GrossLimits& limits);
/// Only those that are gross.
std::vector<Outlier> gross_outliers(std::span<const double> values, const GrossLimits& limits);

}  // namespace versolay::stats
