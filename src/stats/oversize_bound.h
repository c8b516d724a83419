// How much oversize keeps a promise about future cards, and what an oversize yields.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "stats/edge_kernel.h"
#include "stats/sample.h"

namespace versolay::stats {

/// What was seen of the feeds, the correction that is really applied, and the cards.
struct FutureCards {
  Sample feeds;  // 6 components, order and units of RegistrationVector; dof >= 1
  RegistrationMatrix measurement = RegistrationMatrix::Zero();  // covariance of one reading
  double measurement_dof = 0.0;          // how well that is known; 0: exactly
  std::optional<SessionMeans> sessions;  // the future cards come from new sessions, that differ
  RegistrationVector correction = RegistrationVector::Zero();  // what the artwork compensates
  CardCells cards;
  bool whole_sheets = false;  // a sheet counts as good when all its cards are
  /// The direction of the oversize comes from the same feeds (per_axis_direction).
  bool direction_is_estimated = false;
  /// Feeds whose tails are heavier than normal: t with 5 degrees of freedom for the sheets to come,
  /// and 0.4 of the degrees of freedom, since such a sample carries less information about its
  /// spread.
  void set_heavy_tails() {
    cards.heavy_tails = true;
    dof_share = 0.4;
  }
  double dof_share = 1.0;
};

/// At least `coverage` of the future cards (sheets), with probability `confidence`.
struct Promise {
  double coverage = 0.95;
  double confidence = 0.90;
};

struct MonteCarlo {
  int populations = 20000;  // credible populations
  int sheets = 2000;        // future sheets of each
  std::uint64_t seed = 0;
  int threads = 0;  // 0: one per core. The result does not depend on it
  /// Stop before all populations are drawn, once the standard error of the multiple is no larger.
  double precision = 0.0;
};

struct OversizeBound {
  double factor = 0.0;
  double standard_error = 0.0;  // of the Monte Carlo
  std::vector<float> needed;    // multiple that each credible population needs
};

/// The bound that so many credible populations are content with: order statistic
/// ceil(confidence * (count + 1)) of what they need. Precondition: at least one.
OversizeBound bound_of(std::vector<float> needed, double confidence);

/// Multiple t of `direction` (mm) such that an oversize of t * direction keeps the promise: the
/// generalised-fiducial tolerance bound. For each credible population t_b is the order statistic
/// ceil(coverage * count) of what its cards (sheets) need; t is the order statistic
/// ceil(confidence * (populations + 1)) of the t_b.
/// The direction must not depend on the draws made here: it would spoil the confidence.
OversizeBound oversize_bound(const FutureCards& future, const Eigen::Vector2d& direction,
                             const Promise& promise, const MonteCarlo& mc);
double oversize_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                       const Promise& promise, const MonteCarlo& mc);
/// The same for several promises from the same draws: each bound is exactly the one that
/// oversize_bound gives for its promise alone.
std::vector<OversizeBound> oversize_bounds(const FutureCards& future,
                                           const Eigen::Vector2d& direction,
                                           std::span<const Promise> promises, const MonteCarlo& mc);

/// Direction (mm) whose two sides are equally likely to be the short one: quantiles of X and of Y
/// at 1 - (1 - coverage) / 2, spread as observed about no offset.
Eigen::Vector2d per_axis_direction(const FutureCards& future, double coverage,
                                   const MonteCarlo& mc);

/// Draws of the credible populations of the feeds to come.
FutureSampler sampler_of(const FutureCards& future);

/// What counts as good: cards or whole sheets.
EdgeKernel::Value value_of(const FutureCards& future);

/// Shares of good cards and of wholly good sheets, one per credible population; of good cards, cell
/// by cell, over all populations.
struct Yield {
  std::vector<double> cards;
  std::vector<double> card_variance;  // of the number of good cards of a sheet
  std::vector<double> sheets;
  std::vector<double> cells;
};
Yield yield_of(const FutureCards& future, const Eigen::Vector2d& oversize_mm, const MonteCarlo& mc);

/// The same for several multiples of one direction (mm), from the same draws: a yield curve.
/// Multiples of 0 are allowed, the direction must be positive.
std::vector<Yield> yield_curve(const FutureCards& future, const Eigen::Vector2d& direction,
                               std::span<const double> multiples, const MonteCarlo& mc);

/// Mean and quantiles of numbers that are equally credible.
struct Band {
  double mean = 0.0;
  double low = 0.0;   // 5 %
  double high = 0.0;  // 95 %
};
Band band_of(std::vector<double> values);

}  // namespace versolay::stats
