// A second way to an oversize: how far plug-in estimates fall short, by the parametric bootstrap.
#pragma once

#include "stats/oversize_bound.h"

namespace versolay::stats {

struct BootstrapEffort {
  int samples = 1999;
  int sheets = 1000;
};

/// The estimate is taken for the truth, samples like the one at hand are drawn from it, and each
/// tells by which factor its own plug-in quantile falls short of what is needed; the bound is the
/// plug-in quantile of the sample at hand times the factor that `confidence` of them stay below.
///
/// In one dimension this is the exact tolerance bound. In several it is too small (achieved
/// confidence 0.82 to 0.90 for 0.90), where the fiducial bound is too large: the shape of the
/// spread, as seen in few feeds, is more lopsided than that of the printer, and the one counts too
/// little, the other too much on it.
/// Precondition: !future.sessions.
/// Source  Efron & Tibshirani, An Introduction to the Bootstrap, 1993, chapter 12 (pivot).
double bootstrap_pivot_factor(const FutureCards& future, const Eigen::Vector2d& direction,
                              const Promise& promise, const MonteCarlo& mc,
                              const BootstrapEffort& effort = {});

/// The fiducial bound, sharpened: two thirds of it and one third of the pivot on the logarithmic
/// scale, less of the pivot (2.5 / f) from f = 8 on. Where they agree (one dimension) nothing
/// changes; elsewhere it takes away part of the excess and keeps the promise: see
/// tests/bench/README.md for the achieved confidence. With sessions that differ, or heavy tails, it
/// is the fiducial bound as it is.
OversizeBound sharpened(const OversizeBound& fiducial, const FutureCards& future,
                        const Eigen::Vector2d& direction, const Promise& promise,
                        const MonteCarlo& mc, const BootstrapEffort& effort = {});

}  // namespace versolay::stats
