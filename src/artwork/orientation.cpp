#include "artwork/orientation.h"

#include <array>
#include <utility>

#include "core/expect.h"

namespace versolay {

Eigen::Matrix2i seen_from_stored(int orientation) {
  expect(orientation >= 1 && orientation <= 8);
  // Row 1 of the stored image is: 1, 2 top; 3, 4 bottom; 5, 8 left; 6, 7 right.
  // Column 1 is: 1, 4 left; 2, 3 right; 5, 6 top; 7, 8 bottom.
  constexpr std::array<std::array<int, 4>, 8> kMatrices = {{
      {1, 0, 0, 1},
      {-1, 0, 0, 1},
      {-1, 0, 0, -1},
      {1, 0, 0, -1},
      {0, 1, 1, 0},
      {0, -1, 1, 0},
      {0, -1, -1, 0},
      {0, 1, -1, 0},
  }};
  const auto& m = kMatrices[static_cast<std::size_t>(orientation - 1)];
  Eigen::Matrix2i matrix;
  matrix << m[0], m[1], m[2], m[3];
  return matrix;
}

Raster oriented(Raster stored, int orientation) {
  if (orientation == 1) return stored;
  const Eigen::Matrix2i m = seen_from_stored(orientation);
  const bool lies = m(0, 0) == 0;
  Raster seen = stored;
  if (lies) {
    std::swap(seen.width_px, seen.height_px);
    std::swap(seen.ppi_x, seen.ppi_y);
  }
  // Twice the place of a pixel centre relative to the middle is a whole number.
  for (int y = 0; y < stored.height_px; ++y) {
    for (int x = 0; x < stored.width_px; ++x) {
      const Eigen::Vector2i from(2 * x + 1 - stored.width_px, 2 * y + 1 - stored.height_px);
      const Eigen::Vector2i to = m * from;
      const int seen_x = (to.x() + seen.width_px - 1) / 2;
      const int seen_y = (to.y() + seen.height_px - 1) / 2;
      for (int c = 0; c < stored.channels; ++c) seen.at(seen_x, seen_y, c) = stored.at(x, y, c);
    }
  }
  return seen;
}

}  // namespace versolay
