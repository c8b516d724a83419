// The oversize that keeps a promise: by the factor of the oversize's own degrees of freedom where
// that is safe, otherwise by fiducial draws.
#pragma once

#include "stats/effective_dof.h"
#include "stats/oversize_bound.h"

namespace versolay::stats {

/// All bounds for one direction and one coverage.
class PromisedOversize {
 public:
  PromisedOversize(const FutureCards& future, const Eigen::Vector2d& direction, double coverage,
                   const MonteCarlo& mc);

  /// Multiple of the direction, with the standard error of the draws.
  OversizeBound at(double confidence) const;
  const PlugIn& plug_in() const { return plug_in_; }

 private:
  double credit(const Promise& promise) const;

  FutureCards future_;
  Eigen::Vector2d direction_;
  double coverage_;
  MonteCarlo mc_;
  PlugIn plug_in_;
};

}  // namespace versolay::stats
