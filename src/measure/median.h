// The median: the starting value of robust fits.
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

/// Standard deviation of normal residuals by the median of their sizes, so that few wrong ones do
/// not count. Precondition: at least one value.
inline double robust_sd(std::vector<double> residuals) {
  for (double& r : residuals) r = std::abs(r);
  return 1.4826 * median(std::move(residuals));
}

}  // namespace versolay
