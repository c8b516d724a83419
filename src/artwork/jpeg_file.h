// The headers of a JPEG file, and its pixels.
#pragma once

#include <string>
#include <string_view>

#include "artwork/coded_image.h"
#include "artwork/raster.h"

namespace versolay {

/// Everything but the pixels: headers and tables, the first row of the picture, and all markers to
/// the end of the image, so that a file that is cut short, lacks a piece between restart markers or
/// was filled up with zeros is an Error. Damage that leaves the markers alone (a wrong byte in the
/// middle of the coded data) is not noticed: it takes ten times as long as copying the file.
/// @param file  for messages.
CodedImage parse_jpeg(std::string bytes, const std::string& file);

/// Grey or RGB pixels, upright.
Raster decode_jpeg(std::string_view bytes, const std::string& file);

}  // namespace versolay
