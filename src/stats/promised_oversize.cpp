#include "stats/promised_oversize.h"

#include <algorithm>
#include <cmath>

namespace versolay::stats {
namespace {

/// Enough of them above the share for half a per cent of the quantile.
int sheets_for(double coverage) {
  return std::max(20000, static_cast<int>(std::ceil(1000 / (1 - coverage))));
}

}  // namespace

PromisedOversize::PromisedOversize(const FutureCards& future, const Eigen::Vector2d& direction,
                                   double coverage, const MonteCarlo& mc)
    : future_(future),
      direction_(direction),
      coverage_(coverage),
      mc_(mc),
      plug_in_(stats::plug_in(future, direction, coverage, sheets_for(coverage), mc.seed)) {}

/// What the fiducial bound is multiplied by. A back that is left off its place keeps less of the
/// credit that it would have on its place, and none from one standard deviation on: the oversize
/// hangs on one direction then.
double PromisedOversize::credit(const Promise& promise) const {
  const double kept = std::max(0.0, 1 - left_off(future_));
  FutureCards on_its_place = future_;
  on_its_place.correction = on_its_place.feeds.mean;
  double full = 0.0;
  if (factor_serves(on_its_place)) {
    if (kept == 0.0) return 1.0;
    const PlugIn there =
        stats::plug_in(on_its_place, direction_, coverage_, sheets_for(coverage_), mc_.seed);
    full = factor_bound(there, promise) /
           oversize_bound(on_its_place, direction_, promise, mc_).factor;
  } else {
    full = fiducial_credit(future_, plug_in_, promise);
  }
  return 1 - kept * (1 - std::min(full, 1.0));
}

OversizeBound PromisedOversize::at(double confidence) const {
  const Promise promise{coverage_, confidence};
  if (factor_serves(future_)) {
    const double factor = factor_bound(plug_in_, promise);
    return {factor, factor * plug_in_.standard_error / plug_in_.quantile, {}};
  }
  OversizeBound bound = oversize_bound(future_, direction_, promise, mc_);
  const double share = credit(promise);
  bound.factor *= share;
  bound.standard_error *= share;
  return bound;
}

}  // namespace versolay::stats
