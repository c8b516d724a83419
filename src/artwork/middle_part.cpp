#include "artwork/middle_part.h"

#include <algorithm>

namespace versolay {

Raster middle_part(Raster image, int width_px, int height_px) {
  const int width = std::min(width_px, image.width_px);
  const int height = std::min(height_px, image.height_px);
  if (width == image.width_px && height == image.height_px) return image;
  const int left = (image.width_px - width) / 2;
  const int top = (image.height_px - height) / 2;
  const auto row = static_cast<std::size_t>(width) * static_cast<std::size_t>(image.channels);
  auto out = image.samples.begin();  // never beyond what is read
  for (int y = 0; y < height; ++y) {
    const std::uint16_t* from = &image.at(left, top + y, 0);
    out = std::copy(from, from + row, out);
  }
  image.width_px = width;
  image.height_px = height;
  image.samples.erase(out, image.samples.end());
  return image;
}

}  // namespace versolay
