// One resampling of an image under an affine map close to the identity.
#pragma once

#include "artwork/raster.h"
#include "versolay/frames.h"

namespace versolay {

/// Pixels of an image of the artwork: origin at the upper left corner, y down, the centre of the
/// first pixel at (0.5, 0.5).
struct ArtworkPx {};

/// result(p) = image(source_from_result(p)), by the Lanczos kernel with three lobes (36 pixels),
/// its weights normalised, values clamped to the range of the samples. Beyond the edge the edge
/// pixel goes on. Size, profile and resolution stay.
/// Precondition: the map changes sizes by less than 10 % (no filter against aliasing is applied).
/// Source  Duchon, Journal of Applied Meteorology 18 (1979): the kernel sinc(x) sinc(x/3).
Raster warped(const Raster& image, const Affine<ArtworkPx, ArtworkPx>& source_from_result);

}  // namespace versolay
