// Blur with an exact standard deviation, even a very small one.
#pragma once

#include <cmath>
#include <vector>

namespace versolay::rehearse {

/// The discrete analogue of a Gaussian, exp(-t) I_n(t) with t = sd^2: symmetric, sum 1, variance
/// exactly t even when sd is a fraction of a pixel, where a sampled Gaussian is too narrow.
/// Source  T. Lindeberg, "Scale-space for discrete signals", IEEE TPAMI 12(3), 1990.
inline std::vector<float> gaussian_kernel(double sd_px) {
  const double t = sd_px * sd_px;
  const int radius = static_cast<int>(std::ceil(4.0 * sd_px)) + 1;
  std::vector<double> weights(static_cast<std::size_t>(2 * radius + 1));
  double sum = 0.0;
  for (int n = -radius; n <= radius; ++n) {
    const double w = std::exp(-t) * std::cyl_bessel_i(static_cast<double>(std::abs(n)), t);
    weights[static_cast<std::size_t>(n + radius)] = w;
    sum += w;
  }
  std::vector<float> kernel;
  for (double w : weights) kernel.push_back(static_cast<float>(w / sum));
  return kernel;
}

}  // namespace versolay::rehearse
