// How a print head puts a page's raster on paper.
#pragma once

#include <array>
#include <vector>

#include "rehearse/page_raster.h"
#include "rehearse/settings.h"
#include "rehearse/simulation_random.h"

namespace versolay::rehearse {

/// Where there is any ink at all: most of a page is bare, and need not be looked at.
class InkMap {
 public:
  InkMap() = default;
  explicit InkMap(const PageRaster& raster);
  /// False: no ink within kTilePx of (u, v) for certain.
  bool may_have_ink(double u, double v) const {
    const int column = static_cast<int>(u) / kTilePx, row = static_cast<int>(v) / kTilePx;
    return u >= 0.0 && v >= 0.0 && column < columns_ && row < rows_ &&
           inked_[static_cast<std::size_t>(row) * columns_ + column] != 0;
  }
  static constexpr int kTilePx = 32;

 private:
  int columns_ = 0;
  int rows_ = 0;
  std::vector<std::uint8_t> inked_;
};

/// Ink on the paper, in the frame of the page. The head prints in swaths; each swath is slightly
/// off: ink at row v of the raster lands at v + swath_shift.
struct PrintedPage {
  PageRaster raster;
  double swath_px = 1.0;                             // height
  std::vector<std::array<float, 2>> swath_shift_px;  // x, y; at least one; indexed by v / swath_px
  InkMap map;
  /// The page shrunk by kFaintFactor and softened: what shines through to the other side.
  PageRaster faint;
};
inline constexpr int kFaintFactor = 8;

PrintedPage print_page(const PageRaster& page, const InkSettings& settings, Random random);

}  // namespace versolay::rehearse
