// PNG, row by row into the grey plane.
#include <cstdint>
#include <vector>

#include "images/png_reader.h"
#include "scan/decoders.h"
#include "scan/findings.h"
#include "scan/grey_rows.h"

namespace versolay::scan {
namespace {

/// Deflate shrinks to 1/1032 at best (zlib's technical notes): less data cannot fill the rows.
constexpr std::int64_t kBestDeflateRatio = 1032;

/// Grey of every palette entry, seen through to white paper where it is transparent.
GreyTable palette_table(png_structp png, png_infop info) {
  GreyTable table{};
  png_colorp colours = nullptr;
  int n_colours = 0;
  png_get_PLTE(png, info, &colours, &n_colours);
  png_bytep alphas = nullptr;
  int n_alphas = 0;
  png_get_tRNS(png, info, &alphas, &n_alphas, nullptr);
  for (int i = 0; i < n_colours; ++i) {
    const png_color& c = colours[i];
    const std::uint8_t grey = luma(c.red, c.green, c.blue);
    table[static_cast<std::size_t>(i)] = i < n_alphas ? over_white(grey, alphas[i]) : grey;
  }
  return table;
}

/// Asks libpng for bytes: palette indices, or 8-bit samples with or without alpha.
/// Returns the samples per pixel.
int set_transforms(png_structp png, png_infop info, const images::PngHeader& h) {
  if (h.has_palette()) {
    png_set_packing(png);
  } else {
    if (h.bits < 8) png_set_expand_gray_1_2_4_to_8(png);
    if (h.bits == 16) png_set_scale_16(png);
    if (png_get_valid(png, info, PNG_INFO_tRNS) != 0) png_set_tRNS_to_alpha(png);
  }
  png_read_update_info(png, info);
  return png_get_channels(png, info);
}

struct RowConverter {
  int channels = 1;
  bool palette = false;
  GreyTable table{};

  bool in_place() const { return channels == 1; }
  void convert(const std::uint8_t* samples, std::uint8_t* grey, std::size_t n) const noexcept {
    if (channels == 2) grey_from_grey_alpha(samples, grey, n);
    if (channels == 3) grey_from_rgb(samples, grey, n);
    if (channels == 4) grey_from_rgba(samples, grey, n);
    if (palette) grey_by_table(grey, n, table);
  }
};

void read_rows(png_structp png, const RowConverter& rows, std::uint8_t* samples, GreyImage& plane) {
  const std::size_t width = static_cast<std::size_t>(plane.width);
  for (int y = 0; y < plane.height; ++y) {
    std::uint8_t* const grey = plane.row(y);
    png_read_row(png, rows.in_place() ? grey : samples, nullptr);
    rows.convert(samples, grey, width);
  }
}

/// The seven passes of an interlaced file, each a smaller image that is spread over the plane.
/// (libpng can do this itself, but only in a buffer of the whole image in colour.)
void read_interlaced(png_structp png, const RowConverter& rows, std::uint8_t* samples,
                     std::uint8_t* line, GreyImage& plane) {
  const auto width = static_cast<png_uint_32>(plane.width);
  const auto height = static_cast<png_uint_32>(plane.height);
  for (int pass = 0; pass < PNG_INTERLACE_ADAM7_PASSES; ++pass) {
    const png_uint_32 columns = PNG_PASS_COLS(width, pass);
    if (columns == 0) continue;
    for (png_uint_32 r = 0; r < PNG_PASS_ROWS(height, pass); ++r) {
      png_read_row(png, rows.in_place() ? line : samples, nullptr);
      rows.convert(samples, line, columns);
      std::uint8_t* const grey = plane.row(static_cast<int>(PNG_ROW_FROM_PASS_ROW(r, pass)));
      for (png_uint_32 c = 0; c < columns; ++c) grey[PNG_COL_FROM_PASS_COL(c, pass)] = line[c];
    }
  }
}

}  // namespace

Scan decode_png(const InputFile& file, const Place& place, const ScanLimits& limits) {
  return decoding(place, [&] {
    images::PngReader reader(file.handle());
    const images::PngHeader& h = reader.header();
    check_size(place, h.width_px, h.height_px, h.bits * h.channels, limits);
    const auto raw_bytes = static_cast<std::int64_t>(h.row_bytes) * h.height_px;
    if (raw_bytes / kBestDeflateRatio > file.size()) {
      throw Error(place.text(), findings::scan_truncated(h.width_px, h.height_px));
    }

    RowConverter rows;
    rows.palette = h.has_palette();
    reader.run([&](png_structp png, png_infop info) {
      if (h.has_palette()) rows.table = palette_table(png, info);
      rows.channels = set_transforms(png, info, h);
    });

    Scan scan = scan_of(place);
    add_plane(scan, place, static_cast<int>(h.width_px), static_cast<int>(h.height_px), limits);
    std::vector<std::uint8_t> samples(rows.in_place() ? 0 : h.width_px * std::size_t{4});
    std::vector<std::uint8_t> line(h.interlaced ? h.width_px : 0);
    reader.run([&](png_structp png, png_infop) {
      if (h.interlaced) {
        read_interlaced(png, rows, samples.data(), line.data(), scan.grey);
      } else {
        read_rows(png, rows, samples.data(), scan.grey);
      }
      png_read_end(png, nullptr);  // a file without its end is incomplete, pixels or not
    });

    if (h.bits == 1) warn_black_and_white(scan);
    set_dpi(scan, h.ppi_x, h.ppi_y);
    undo_mirror(scan, h.orientation);
    return scan;
  });
}

}  // namespace versolay::scan
