// The legend of a layer for an image editor.
#pragma once

#include "imposition/back_layer_drawing.h"
#include "versolay/registration.h"

namespace versolay::words {

/// @param shift  of all backs on the page.
/// @param ppi    of the user's page: lengths are said in its pixels, too.
BackLayerWords back_layer_words(const Registration& shift, const Reach& oversize, double gutter_mm,
                                double ppi);

}  // namespace versolay::words
