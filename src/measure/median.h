// The median, and what robust fits derive from it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "core/expect.h"

namespace versolay {

/// Upper median. Precondition: at least one value.
template <class Number>
Number median(std::vector<Number> values) {
  expect(!values.empty());
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// The standard deviation of a normal error over its median size: 1 / 0.6745.
inline constexpr double kSdPerMedian = 1.4826;
/// The median length of an error in the plane, in standard deviations of one axis: sqrt(2 ln 2).
inline constexpr double kMedianLengthPerSd = 1.18;

/// Robust fits of this room leave out what is off by more than so many robust standard deviations.
inline constexpr double kRejectSigmas = 4.0;

/// Standard deviation of normal residuals by the median of their sizes, so that few wrong ones do
/// not count. Precondition: at least one value.
inline double robust_sd(std::vector<double> residuals) {
  for (double& r : residuals) r = std::abs(r);
  return kSdPerMedian * median(std::move(residuals));
}

}  // namespace versolay
