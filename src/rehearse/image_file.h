// Scans as files.
#pragma once

#include <filesystem>
#include <string>

#include "rehearse/scan_image.h"

namespace versolay::rehearse {

/// File name ending, with the dot.
std::string extension(ImageKind kind);

/// The bytes of an image file. `dpi` is written into it; 0 leaves it out.
/// Throws Error when the picture is larger than the kind of file can hold.
std::string encode(const ScanImage& image, ImageKind kind, int jpeg_quality, double dpi);

/// A picture file as it is, grey or blue-green-red; with `grey`, made grey. Used for pictures that
/// this program or its helpers have just made, not for scans by others.
/// Throws Error when it cannot be read.
ScanImage read_picture(const std::filesystem::path& path, bool grey = false);

}  // namespace versolay::rehearse
