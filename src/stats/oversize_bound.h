// How much oversize keeps a promise about future cards, and what an oversize yields.
#pragma once

#include <cstdint>
#include <vector>

#include "stats/edge_kernel.h"
#include "stats/sample.h"

namespace versolay::stats {

/// What was seen of the feeds, the correction that is really applied, and the cards.
struct FutureCards {
  Sample feeds;  // 6 components, order and units of RegistrationVector; dof >= 1
  RegistrationMatrix measurement = RegistrationMatrix::Zero();  // covariance of one reading
  RegistrationVector correction = RegistrationVector::Zero();   // what the artwork compensates
  CardCells cards;
  bool whole_sheets = false;  // a sheet counts as good when all its cards are
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
};

/// Multiple t of `direction` (mm) such that an oversize of t * direction keeps the promise: the
/// generalised-fiducial tolerance bound. For each credible population t_b is the order statistic
/// ceil(coverage * count) of what its cards (sheets) need; t is the order statistic
/// ceil(confidence * (populations + 1)) of the t_b.
/// The direction must not depend on the draws made here: it would spoil the confidence.
double oversize_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                       const Promise& promise, const MonteCarlo& mc);

/// Direction (mm) whose two sides are equally likely to be the short one: quantiles of X and of Y
/// at 1 - (1 - coverage) / 2, spread as observed about no offset.
Eigen::Vector2d per_axis_direction(const FutureCards& future, double coverage,
                                   const MonteCarlo& mc);

/// The same question with the estimates taken for the truth, times the one-dimensional tolerance
/// factor k / z. A check on the order of magnitude of oversize_factor.
double plug_in_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                      const Promise& promise, const MonteCarlo& mc);

/// Shares of good cards and of wholly good sheets, one per credible population.
struct Yield {
  std::vector<double> cards;
  std::vector<double> sheets;
};
Yield yield_of(const FutureCards& future, const Eigen::Vector2d& oversize_mm, const MonteCarlo& mc);

/// Mean and quantiles of numbers that are equally credible.
struct Band {
  double mean = 0.0;
  double low = 0.0;   // 5 %
  double high = 0.0;  // 95 %
};
Band band_of(std::vector<double> values);

}  // namespace versolay::stats
