// Draws on a page of libharu.
#pragma once

#include "core/drawing.h"
#include "pdf/haru.h"
#include "versolay/paper.h"

namespace versolay {

/// Adds a page of that size to the document and draws on it in the order of the list. Circles are
/// Bezier arcs that stay within 0.02 um of the circle. Saves and restores are balanced.
/// Throws std::logic_error when a coordinate is not finite or a size is negative.
void draw_page(HaruDocument& document, const Paper& paper, const Drawing& drawing);

}  // namespace versolay
