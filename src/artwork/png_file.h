// PNG files: their chunks, and pixels in and out.
// Source  W3C PNG specification (2nd and 3rd edition): chunk layout, critical chunks, row filters.
#pragma once

#include <string>
#include <string_view>

#include "artwork/coded_image.h"
#include "artwork/raster.h"

namespace versolay {

/// Grey, RGB and palettes of any depth keep their compressed rows; transparency (laid over white)
/// and interlaced rows are decoded and coded again.
/// @param file  for messages.
CodedImage parse_png(std::string_view bytes, const std::string& file);

/// Grey or RGB pixels, 8 or 16 bit; transparency over white.
Raster decode_png(std::string_view bytes, const std::string& file);

}  // namespace versolay
