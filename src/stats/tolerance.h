// Factors of normal tolerance intervals: mean +- k * sd contains at least the share `coverage` of
// the population with probability `confidence`.
#pragma once

namespace versolay::stats {

/// Where the mean and the sd come from. One sample of n: mean_n = n, dof = n - 1. Pooled sd: dof
/// may be anything >= 1.
struct ToleranceSample {
  double mean_n = 0.0;
  double dof = 0.0;
};

/// Exact two-sided factor: the k for which
///   integral over z of phi(z) Pr[chi2_f > f r^2(z) / k^2] = confidence,
/// r(z) the half width that covers `coverage` about a centre off by z / sqrt(mean_n).
/// Preconditions: mean_n > 0, dof >= 1, both levels inside (0, 1).
/// Source  Wald & Wolfowitz, Ann. Math. Stat. 17, 1946; Krishnamoorthy & Mathew, Statistical
/// Tolerance Regions, 2009, section 2.3 (exact integral).
double two_sided_factor(const ToleranceSample& sample, double coverage, double confidence);

/// Howe's approximation to the two-sided factor. Source  NIST/SEMATECH e-Handbook, 7.2.6.3.
double two_sided_factor_howe(const ToleranceSample& sample, double coverage, double confidence);

/// Exact one-sided factor of a sample of n, by the noncentral t. Source  as above, 7.2.6.3.
double one_sided_factor(int n, double coverage, double confidence);

/// Natrella's approximation to the one-sided factor. Source  as above, 7.2.6.3.
double one_sided_factor_approximate(int n, double coverage, double confidence);

}  // namespace versolay::stats
