// The samples of a TIFF, however the file divides them: strips, tiles, separate planes.
#pragma once

#include <functional>

#include "images/tiff_reader.h"

namespace versolay::images {

/// Part of a row: pixels of `stride` samples in native byte order, the colours (and alpha) first.
struct TiffRun {
  const std::uint8_t* samples = nullptr;
  std::size_t stride = 0;
  std::uint32_t x = 0;
  std::uint32_t y = 0;
  std::uint32_t width = 0;
};

/// Passes on every pixel once, as libtiff decodes it. Memory: a row; of a file in tiles a tile; of
/// separate planes a tile or strip of each. Throws PictureError, also when a tile, or a strip of
/// one plane, takes more than `largest_block` bytes.
void read_rows(const TiffReader& file, const TiffLayout& layout, std::uint64_t largest_block,
               const std::function<void(const TiffRun&)>& use);

}  // namespace versolay::images
