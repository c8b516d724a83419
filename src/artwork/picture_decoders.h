// One decoder per file format of the artwork, and what they share. Each throws PictureError, or
// Error where this room has better words.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "artwork/coded_image.h"
#include "artwork/raster.h"

namespace versolay {

struct PictureFile {
  std::string_view bytes;
  const std::string& name;  // for messages
  int page = 0;             // of a TIFF, from 1; 0: the only one
};

/// Reads the whole picture at an eighth of its size: libjpeg then decodes every coefficient, and a
/// file that is cut short, garbled or filled up with zeros is damaged. `data` stays empty: it is
/// the file.
CodedImage parse_jpeg(const PictureFile& file);
/// Grey, RGB and palettes of any depth keep their compressed rows; transparency (laid over white)
/// and interlaced rows are decoded and coded again.
CodedImage parse_png(const PictureFile& file);
/// The samples packed as a PDF needs them, none changed (transparency excepted, laid over white).
CodedImage parse_tiff(const PictureFile& file);

Raster decode_jpeg(const PictureFile& file);
Raster decode_png(const PictureFile& file);
/// Kinds that are rare in artwork (palettes, fewer than 8 bits, other colour spaces) come as 8-bit
/// RGB through libtiff.
Raster decode_tiff(const PictureFile& file);

/// Previews and masks that programs store beside the pictures do not count.
int count_tiff_pages(const PictureFile& file);

/// A raster without pixels yet. Throws Error when it would take too much memory.
Raster empty_raster(const CodedImage& header, const std::string& file);

/// Where a decoder puts the samples of a row: of 16 bits in native byte order, or of 8 bits for
/// spread_bytes().
inline unsigned char* row_bytes(Raster& raster, std::size_t y) {
  return reinterpret_cast<unsigned char*>(raster.samples.data() + y * raster.row_samples());
}
/// Spreads the bytes of every row over its samples; nothing to do for 16 bits.
void spread_bytes(Raster& raster);

/// A density of 1 per inch or less is a program's way not to state one.
template <class Image>
void set_ppi(Image& image, double ppi_x, double ppi_y) {
  if (!(ppi_x > 1 && ppi_y > 1)) return;
  image.ppi_x = ppi_x;
  image.ppi_y = ppi_y;
}

}  // namespace versolay
