// Do new readings still come from the same process?
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "stats/sample.h"

namespace versolay::stats {

/// What the limits must allow for: the process was learnt from `n` readings (mean) with `dof`
/// degrees of freedom (covariance), p components.
struct Reference {
  int p = 0;
  int n = 0;
  int dof = 0;
};
bool monitoring_is_possible(const Reference& reference);  // dof >= p

/// T2 that one new reading exceeds with probability alpha when nothing has changed:
/// p dof / (dof - p + 1) (1 + 1/n) F; with dof = n - 1 this is p (n + 1)(n - 1) / (n (n - p)) F.
/// Source  Montgomery, Introduction to Statistical Quality Control, section 11.3 (phase II).
double phase_two_limit(const Reference& reference, double alpha);

/// T2 of one reading: (x - mean)' S^-1 (x - mean).
double t2_of(const Sample& reference, const Eigen::VectorXd& reading);

/// T2 of the mean of `m` new readings against the reference, exceeded with probability `alpha` when
/// nothing has changed: p dof / (dof - p + 1) (1/m + 1/n) F(p, dof - p + 1).
double new_mean_limit(const Reference& reference, int m, double alpha);

/// Do new readings vary as those of the reference? The statistic is the sum of T2 of the new
/// readings about their own mean (Lawley-Hotelling trace); its distribution when nothing has
/// changed is simulated, since that depends on p, dof and the number of readings only.
struct SpreadChange {
  double statistic = 0.0;
  double p_larger = 1.0;   // of as large a statistic
  double p_smaller = 1.0;  // of as small a one
};
/// Preconditions: monitoring_is_possible, 2 readings or more.
/// Source  Anderson, Multivariate Statistical Analysis, section 8.6 (the trace criterion).
SpreadChange spread_change(const Sample& reference, const Eigen::MatrixXd& readings,
                           std::uint64_t seed);

/// Multivariate exponentially weighted moving average Z_i = l x_i + (1 - l) Z_(i-1): its T2 after
/// each reading, with the exact covariance l (1 - (1 - l)^(2i)) / (2 - l) S of Z_i.
/// Source  Lowry, Woodall, Champ & Rigdon, Technometrics 34, 1992.
std::vector<double> mewma(const Sample& reference, const Eigen::MatrixXd& readings, double lambda);

/// Limit of the largest of the MEWMA statistics of `readings` new readings, exceeded with
/// probability alpha when nothing has changed; simulated with the mean and the covariance
/// re-estimated each time. Limits for known parameters would alarm far too often.
double mewma_limit(const Reference& reference, double lambda, int readings, double alpha,
                   std::uint64_t seed);

/// Average run length of a MEWMA with KNOWN parameters and limit h on the statistic with the
/// asymptotic covariance, when nothing has changed. For checks.
/// Source  Runger & Prabhu, J. Applied Statistics 23, 1996 (Markov chain).
double mewma_average_run_length(int p, double lambda, double h);

}  // namespace versolay::stats
