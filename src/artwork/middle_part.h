// The part of a picture that a card shows of it.
#pragma once

#include "artwork/raster.h"

namespace versolay {

/// The middle of the image, at most that wide and high.
Raster middle_part(Raster image, int width_px, int height_px);

}  // namespace versolay
