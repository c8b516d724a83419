// What stands in the headers of a JPEG file, and its pixels.
#pragma once

#include <string>
#include <string_view>

#include "artwork/coded_image.h"
#include "artwork/raster.h"

namespace versolay {

bool looks_like_jpeg(std::string_view bytes);

/// Everything but the pixels decoded; they are run through once and any warning is an error.
/// @param file  for messages.
CodedImage parse_jpeg(std::string bytes, const std::string& file);

/// Grey or RGB pixels as stored (no orientation applied).
Raster decode_jpeg(std::string_view bytes, const std::string& file);

}  // namespace versolay
