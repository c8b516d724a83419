// What a small sample says about one number: the degrees of freedom of the oversize itself.
//
// The spread of p components is estimated with f degrees of freedom each way, but the oversize is
// one number made of them, and its estimate varies less than that of any single one. With S the
// observed covariance, L L' = S and q(S) the oversize that would do if S were the truth,
//
//   H = L' (d ln q^2 / dS) L,     Var(ln q^2) ~ 2 tr(H^2) / f,     f_eff = f / tr(H^2),
//
// so that q^2 varies like a chi-squared of f_eff degrees of freedom, and the exact one-dimensional
// factor k(n, f_eff) makes a tolerance bound of it. Where q^2 is proportional to S (no cut errors,
// nothing taken out) tr H = 1, hence f_eff >= f, with equality in one dimension: the bound is exact
// there.
// Source  Satterthwaite, Biometrics Bulletin 2, 1946 (matching the variance by a chi-squared);
// Krishnamoorthy & Mathew, Statistical Tolerance Regions, 2009, ch. 2 and 9 (the factor).
#pragma once

#include "stats/oversize_bound.h"

namespace versolay::stats {

/// The oversize that would do if the estimates were the truth, and what the sample says of it.
struct PlugIn {
  double quantile = 0.0;        // multiple of the direction
  double standard_error = 0.0;  // of the draws, of the quantile
  double dof = 0.0;             // effective, >= that of the sample
  double mean_n = 0.0;  // how many feeds the mean counts for, in units of the quantile's spread
};

/// @param sheets  simulated for each of the r (r + 1) + 1 spreads that are compared (r: rank); the
///                same random numbers serve all of them.
PlugIn plug_in(const FutureCards& future, const Eigen::Vector2d& direction, double coverage,
               int sheets, std::uint64_t seed);

/// How far the back is left off its place, in standard deviations of the feeds: the largest of the
/// components.
double left_off(const FutureCards& future);

/// Does the plug-in quantile times the factor give the bound? Not for feeds with heavy tails, a
/// back that is left off its place, a field that is not known, or sessions that are a sample.
bool factor_serves(const FutureCards& future);

/// The bound on the oversize, as a multiple of the direction: quantile * k(mean_n, dof) / z.
/// Precondition: factor_serves(future).
double factor_bound(const PlugIn& plug_in, const Promise& promise);

/// k(n, f_eff) / k(n, f): what a fiducial bound is multiplied by, where the factor alone does not
/// serve. 1 for heavy tails, and where a field is known in part only (with it 0.865 of 0.900 was
/// achieved at worst).
double fiducial_credit(const FutureCards& future, const PlugIn& plug_in, const Promise& promise);

}  // namespace versolay::stats
