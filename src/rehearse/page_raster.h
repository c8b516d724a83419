// A page as a grid of ink, the form in which the simulated printer receives it.
#pragma once

#include <cstdint>
#include <vector>

#include "versolay/frames.h"

namespace versolay::rehearse {

struct RasterPx {};  // pixels of a PageRaster: centres at +0.5, origin at its upper-left corner

/// Ink of one page: 0 bare paper .. 255 solid black, row by row from the page's upper-left corner.
struct PageRaster {
  int width = 0;
  int height = 0;
  double ppi = 0.0;
  std::vector<std::uint8_t> ink;  // width * height

  const std::uint8_t* row(int y) const { return ink.data() + static_cast<std::size_t>(y) * width; }
  std::uint8_t* row(int y) { return ink.data() + static_cast<std::size_t>(y) * width; }
};

/// Where a place of a page of this size is on its raster. The raster hangs from the page's
/// upper-left corner; its last column and row may reach beyond the page.
inline Affine<RasterPx, PageMm> raster_from_page(double page_width_mm, double page_height_mm,
                                                 double ppi) {
  const double px_per_mm = ppi / 25.4;
  return {Eigen::Matrix2d::Identity() * px_per_mm,
          Eigen::Vector2d(page_width_mm, page_height_mm) / 2.0 * px_per_mm};
}

}  // namespace versolay::rehearse
