// TIFF files of artwork: pixels in and out, with their profile and resolution.
#pragma once

#include <string>
#include <string_view>

#include "artwork/coded_image.h"
#include "artwork/raster.h"

namespace versolay {

/// Pictures in the file; previews and masks that programs store beside them do not count.
int tiff_pages(std::string_view bytes, const std::string& file);

/// The pixels packed as a PDF needs them, none changed (transparency excepted, laid over white).
/// @param page  from 1; 0: the only one.
/// @param file  for messages.
/// Also throws Error if the page does not exist, or if there are several and none was named.
CodedImage parse_tiff(std::string_view bytes, int page, const std::string& file);

/// Grey, RGB or CMYK pixels, 8 or 16 bit, upright. Layouts that are rare in artwork (palettes,
/// fewer bits, other colour spaces, separate planes, tiles) come as 8-bit RGB through libtiff.
Raster decode_tiff(std::string_view bytes, int page, const std::string& file);

/// A TIFF (deflate) with the samples, the profile and the resolution of the raster.
std::string encode_tiff(const Raster& raster);

}  // namespace versolay
