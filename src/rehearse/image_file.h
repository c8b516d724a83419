// Scans as files.
#pragma once

#include <string>

#include "rehearse/scan_image.h"
#include "rehearse/settings.h"

namespace versolay::rehearse {

/// File name ending, with the dot.
std::string extension(ImageKind kind);

/// The bytes of an image file. `dpi` is written into it; 0 leaves it out.
/// Throws Error when the picture is larger than the kind of file can hold.
std::string encode(const ScanImage& image, ImageKind kind, int jpeg_quality, double dpi);

}  // namespace versolay::rehearse
