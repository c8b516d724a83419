// How far a print is from actual size.
#pragma once

#include <Eigen/Core>

namespace versolay {

/// Less may be the scanner's.
constexpr double kPrintScaleTolerance = 0.005;

/// The worse of the two axes. `scale`: 1 = actual size.
inline double scale_fault(const Eigen::Vector2d& scale) {
  return (scale.array() - 1.0).abs().maxCoeff();
}

}  // namespace versolay
