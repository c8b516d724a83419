// Classifies the edge of a picture, which decides what may be printed beyond the cut.
#pragma once

#include <vector>

#include "artwork/raster.h"
#include "versolay/layout.h"

namespace versolay {

struct ArtEdge {
  EdgeKind kind = EdgeKind::picture;
  std::vector<double> colour;  // the median along the rim: 0..1, one per channel of the raster
  int band_px = 0;             // how far that colour reaches into the picture, on its thinnest side
};

/// Plain: the colour of at least 99.5 % of every line of pixels around the picture, within 3 % of
/// full scale (JPEG and soft grain), at least `least_band_px` deep. White: plain and within 3 % of
/// white. Pattern: the step from the last column (row) to the first is no larger than the steps
/// between columns (rows) inside, and the rim is not one thin line of a colour.
ArtEdge examine_edge(const Raster& image, int least_band_px);

}  // namespace versolay
