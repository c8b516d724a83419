// The eight ways in which a camera may have stored an upright picture.
// Source  CIPA DC-008 (EXIF), tag Orientation: which sides of the picture the first row and the
// first column of the stored image are.
#pragma once

#include <Eigen/Core>

#include "artwork/raster.h"

namespace versolay {

/// seen = matrix * stored, for places relative to the middle of the picture, y down, both in units
/// of their own width and height: entries are 0, 1 and -1.
Eigen::Matrix2i seen_from_stored(int orientation);

/// The raster as it is meant to be seen.
Raster oriented(Raster stored, int orientation);

}  // namespace versolay
