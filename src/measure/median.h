// The middle value: what robust fits start from.
#pragma once

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <vector>

namespace versolay {

/// Upper median. Precondition: at least one value.
template <class Number>
Number median(std::vector<Number> values) {
  assert(!values.empty());
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace versolay
