// At which nominal confidence the fiducial bound keeps the confidence that is asked for.
#pragma once

#include "stats/oversize_bound.h"

namespace versolay::stats {

struct CalibrationEffort {
  int samples = 599;
  int populations = 79;  // credible ones of each sample
  int sheets = 250;
};

/// In one dimension the fiducial bound is exact. In several it is on the safe side, because few
/// feeds look more lopsided than their printer and the fiducial draws count that twice. How far can
/// be found out from the sample itself: the estimate is taken for the truth, samples like the one
/// at hand are drawn from it, and each tells at which nominal confidence its own bound would just
/// have been large enough. What `promise.confidence` of them stay below is returned: a bound at
/// that nominal confidence is first-order calibrated.
///
/// @return at most promise.confidence, at least 0.5. With sessions that differ, or heavy tails, it
/// is promise.confidence: few sessions cannot stand for the truth.
/// Source  Beran, Biometrika 74, 1987 (prepivoting), applied to the fiducial bound.
double calibrated_confidence(const FutureCards& future, const Eigen::Vector2d& direction,
                             const Promise& promise, const MonteCarlo& mc,
                             const CalibrationEffort& effort = {});

}  // namespace versolay::stats
