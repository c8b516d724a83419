// A smaller image for the coarse search.
#pragma once

#include "scan/scan.h"

namespace versolay {

/// How many pixels become one. The two differ for scans that are finer one way than the other.
struct Reduction {
  int across = 1;
  int down = 1;
};

/// Every pixel is the mean of across x down pixels; a rest at the right and the lower border is
/// dropped. A place (x, y) of the small image is the place (across * x, down * y) of the large one
/// (both measured from the corner). Precondition: both at least 1 and at most the image's side.
GreyImage reduce_by_area(const GreyImage& image, Reduction by);

/// The part [x0, x0 + width) x [y0, y0 + height) of the image, reduced.
GreyImage reduced_part(const GreyImage& image, int x0, int y0, int width, int height, Reduction by);

}  // namespace versolay
