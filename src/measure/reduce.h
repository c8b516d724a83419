// A smaller image for the coarse search.
#pragma once

#include "scan/scan.h"

namespace versolay {

/// Every pixel is the mean of factor x factor pixels; a rest at the right and the lower border is
/// dropped. A place p of the small image is the place factor * p of the large one (both measured
/// from the corner). Precondition: factor >= 1, both sides >= factor.
GreyImage reduce_by_area(const GreyImage& image, int factor);

/// The part [x0, x0 + width) x [y0, y0 + height) of the image, reduced by `factor`.
GreyImage reduced_part(const GreyImage& image, int x0, int y0, int width, int height, int factor);

}  // namespace versolay
