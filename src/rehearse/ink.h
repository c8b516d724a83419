// What becomes of a page's raster when a print head puts it on paper.
#pragma once

#include <array>
#include <vector>

#include "rehearse/page_raster.h"
#include "rehearse/random.h"
#include "rehearse/settings.h"

namespace versolay::rehearse {

/// Ink as it lies on the paper, in the frame of the page. The head prints in swaths; each swath
/// lies a little off: ink at row v of the raster lands at v + swath_shift.
struct PrintedPage {
  PageRaster raster;
  double swath_px = 1.0;                             // height
  std::vector<std::array<float, 2>> swath_shift_px;  // x, y; at least one; indexed by v / swath_px
  /// The page shrunk by kFaintFactor and softened: what shines through to the other side.
  PageRaster faint;
};
inline constexpr int kFaintFactor = 8;

PrintedPage print_page(const PageRaster& page, const InkSettings& settings, Random random);

}  // namespace versolay::rehearse
