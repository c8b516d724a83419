// From light to grey values: lamp, noise and grey scale of the simulated scanner.
#pragma once

#include "rehearse/scan_image.h"
#include "rehearse/simulation_random.h"

namespace versolay::rehearse {

/// Writes row `row` of the picture. `light` is the share of light that the paper returns, one
/// value for each pixel, 1 = perfect white.
void expose_row(const ScannerSettings& settings, int row, const float* light, ScanImage& image,
                Random random);

}  // namespace versolay::rehearse
