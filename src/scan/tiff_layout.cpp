#include "scan/tiff_layout.h"

#include <algorithm>

#include "scan/findings.h"

namespace versolay::scan {
namespace {

/// Decoded bytes per stored byte, at best. 0: no bound worth checking (fax codes a blank row in a
/// bit). Deflate: zlib's technical notes. LZW: 12-bit codes for strings that grow by one byte each,
/// until the table of 4096 is full, 1370 (computed). PackBits: 128 bytes in 2. JPEG: as for files.
std::int64_t best_ratio(std::uint16_t compression) {
  switch (compression) {
    case COMPRESSION_NONE:
      return 1;
    case COMPRESSION_PACKBITS:
      return 64;
    case COMPRESSION_ADOBE_DEFLATE:
    case COMPRESSION_DEFLATE:
      return 1032;
    case COMPRESSION_LZW:
      return 1400;
    case COMPRESSION_JPEG:
      return 3 * 1024;
    default:
      return 0;
  }
}

}  // namespace

void check_layout(const Place& place, const images::TiffLayout& layout) {
  const std::uint16_t p = layout.photometric;
  if (p == PHOTOMETRIC_SEPARATED) {
    throw Error(place.text(), findings::scan_in_cmyk());
  }
  if (!TIFFIsCODECConfigured(layout.compression) || layout.compression == COMPRESSION_OJPEG) {
    throw Error(place.text(), findings::scan_tiff_compression(layout.compression));
  }
  const bool palette = p == PHOTOMETRIC_PALETTE;
  if (!layout.is_grey() && !palette && !layout.is_colour()) {
    throw Error(place.text(), findings::scan_tiff_colours(p));
  }
  const std::uint16_t format = layout.sample_format;
  const std::uint16_t b = layout.bits;
  const bool small = (b == 1 || b == 2 || b == 4) && layout.samples == 1 && !layout.is_colour();
  if ((!small && b != 8 && (b != 16 || palette)) ||
      (format != SAMPLEFORMAT_UINT && format != SAMPLEFORMAT_VOID)) {
    throw Error(place.text(), findings::scan_tiff_samples(b, format));
  }
  if (layout.samples < layout.colours() || layout.samples > 8) {
    throw Error(place.text(), findings::scan_tiff_values(layout.samples));
  }
}

void check_length(const Place& place, const images::TiffLayout& layout, std::int64_t file_size) {
  const std::int64_t ratio = best_ratio(layout.compression);
  if (ratio == 0) return;
  const std::int64_t bits = std::int64_t{layout.width_px} * layout.height_px * layout.bits;
  if (bits / 8 * layout.samples / ratio > file_size) {
    throw Error(place.text(), findings::scan_truncated(layout.width_px, layout.height_px));
  }
}

GreyTable value_table(const images::TiffReader& file, const images::TiffLayout& layout) {
  GreyTable table{};
  const std::size_t n = std::size_t{1} << std::min<int>(layout.bits, 8);
  if (layout.photometric != PHOTOMETRIC_PALETTE) {
    for (std::size_t i = 0; i < n; ++i) {
      const auto value = static_cast<std::uint8_t>(i * 255 / (n - 1));
      table[i] = layout.photometric == PHOTOMETRIC_MINISWHITE ? 255 - value : value;
    }
    return table;
  }
  std::uint16_t* r = nullptr;
  std::uint16_t* g = nullptr;
  std::uint16_t* b = nullptr;
  if (TIFFGetField(file.get(), TIFFTAG_COLORMAP, &r, &g, &b) == 0) file.fail("no palette");
  // Entries have 16 bits; some programs write 8-bit values all the same.
  const bool eight_bit = std::all_of(r, r + n, [](auto v) { return v < 256; }) &&
                         std::all_of(g, g + n, [](auto v) { return v < 256; }) &&
                         std::all_of(b, b + n, [](auto v) { return v < 256; });
  const auto level = [&](std::uint16_t v) -> unsigned { return eight_bit ? v : from_16_bits(v); };
  for (std::size_t i = 0; i < n; ++i) table[i] = luma(level(r[i]), level(g[i]), level(b[i]));
  return table;
}

}  // namespace versolay::scan
