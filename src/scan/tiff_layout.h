// What a TIFF directory says of its pixels, and whether that can be read.
#pragma once

#include "scan/grey_rows.h"
#include "scan/tiff_file.h"

namespace versolay::scan {

/// What the directory says of the pixels.
struct TiffLayout {
  std::uint32_t width = 0;
  std::uint32_t height = 0;
  std::uint16_t bits = 1;
  std::uint16_t samples = 1;
  std::uint16_t photometric = PHOTOMETRIC_MINISBLACK;
  std::uint16_t compression = COMPRESSION_NONE;
  bool planar = false;  // one plane per colour
  bool alpha = false;   // the sample after the colours is alpha
  bool premultiplied = false;

  bool colour() const { return photometric == PHOTOMETRIC_RGB; }
  std::size_t colours() const { return colour() ? 3 : 1; }
};

TiffLayout read_layout(const TiffFile& file);
/// Throws Error when the kind of colours, samples or compression is not read.
void check_layout(const TiffFile& file, const TiffLayout& layout);
/// A header may promise more pixels than a file of `file_size` bytes can hold: throws Error before
/// memory is taken for them.
void check_length(const TiffFile& file, const TiffLayout& layout, std::int64_t file_size);
/// Grey of every stored value of up to 8 bits, for palettes and grey scales.
GreyTable value_table(const TiffFile& file, const TiffLayout& layout);

/// A tag of 16 bits, or its default.
std::uint16_t tiff_field16(TIFF* tiff, std::uint32_t tag);

}  // namespace versolay::scan
