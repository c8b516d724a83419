// The two Exif fields that matter here: orientation and resolution.
#pragma once

#include <cstdint>
#include <span>

namespace versolay {

struct ExifHints {
  int orientation = 1;  // 1..8
  double dpi_x = 0.0;   // 0: not said
  double dpi_y = 0.0;
};

/// Reads Orientation, XResolution, YResolution and ResolutionUnit of the first directory.
/// `tiff` starts with "II*\0" or "MM\0*". Anything malformed is skipped: these are hints.
/// A resolution of just 72 dpi counts as not said: Exif prescribes it for "unknown".
/// Source  Exif 2.32 (CIPA DC-008-2019), 4.6.2 and 4.6.4.A.
ExifHints read_exif(std::span<const std::uint8_t> tiff);

}  // namespace versolay
