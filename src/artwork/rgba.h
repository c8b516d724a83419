// A picture with transparency, for layers over existing artwork.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace versolay {

/// 8-bit samples, red green blue alpha, row by row; not multiplied by alpha.
struct RgbaImage {
  int width_px = 0;
  int height_px = 0;
  std::vector<std::uint8_t> samples;

  RgbaImage(int width, int height)
      : width_px(width),
        height_px(height),
        samples(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4) {}
  std::uint8_t* at(int x, int y) {
    return samples.data() + 4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width_px) +
                                 static_cast<std::size_t>(x));
  }
};

/// A PNG with that resolution.
std::string encode_png(const RgbaImage& image, double ppi);

}  // namespace versolay
