// The four edges of a page, as one looks at it.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <string_view>

namespace versolay {

inline constexpr std::array<std::string_view, 4> kEdgeNames = {"left", "right", "top", "bottom"};

/// Of kEdgeNames: the edge that faces this way.
inline std::size_t edge_index(const Eigen::Vector2d& outward) {
  if (std::abs(outward.x()) > 0.5) return outward.x() < 0 ? 0 : 1;
  return outward.y() < 0 ? 2 : 3;
}

}  // namespace versolay
