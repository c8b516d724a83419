// JPEG, row by row into the grey plane. Only the luma plane is decoded.
#include <algorithm>
#include <array>

#include "images/jpeg_reader.h"
#include "scan/decoders.h"
#include "scan/findings.h"

namespace versolay::scan {
namespace {

/// No block of 8 x 8 pixels takes less than one bit (an empty block of a progressive scan), and
/// chroma takes some: fewer bytes than this cannot hold the image. Arithmetic coding can do better.
constexpr std::int64_t kMostPixelsPerByte = 64 * 8 * 2;

constexpr int kRowsAtOnce = 16;

void check_colours(const Place& place, const images::JpegHeader& h) {
  if (h.colours == JCS_CMYK || h.colours == JCS_YCCK) {
    throw Error(place.text(), findings::scan_in_cmyk());
  }
  if (h.colours != JCS_GRAYSCALE && h.colours != JCS_YCbCr && h.colours != JCS_RGB) {
    throw Error(place.text(), findings::scan_jpeg_colours());
  }
}

void read_rows(j_decompress_ptr decoder, GreyImage& plane) {
  decoder->out_color_space = JCS_GRAYSCALE;
  jpeg_start_decompress(decoder);
  std::array<JSAMPROW, kRowsAtOnce> rows;
  while (decoder->output_scanline < decoder->output_height) {
    const JDIMENSION left = decoder->output_height - decoder->output_scanline;
    const JDIMENSION n = std::min<JDIMENSION>(left, kRowsAtOnce);
    for (JDIMENSION i = 0; i < n; ++i) {
      rows[i] = plane.row(static_cast<int>(decoder->output_scanline + i));
    }
    jpeg_read_scanlines(decoder, rows.data(), n);
  }
  jpeg_finish_decompress(decoder);  // reads on to the end marker
}

/// @param source  what JpegReader reads from; `size` in bytes.
template <class Source>
Scan decode(Source source, std::int64_t size, const Place& place, const ScanLimits& limits,
            Hints hints) {
  return decoding(place, [&] {
    images::JpegReader reader(source);
    const images::JpegHeader& h = reader.header();
    const std::int64_t width = h.width_px;
    const std::int64_t height = h.height_px;
    check_size(place, width, height, 24, limits);
    check_colours(place, h);
    if (!h.arithmetic && width * height / kMostPixelsPerByte > size) {
      throw Error(place.text(), findings::scan_truncated(width, height));
    }

    Scan scan = scan_of(place);
    add_plane(scan, place, static_cast<int>(width), static_cast<int>(height), limits);
    reader.run([&](j_decompress_ptr decoder) { read_rows(decoder, scan.grey); });
    if (hints == Hints::ignore) return scan;
    set_dpi(scan, h.ppi_x > 0 ? h.ppi_x : h.exif.dpi_x, h.ppi_x > 0 ? h.ppi_y : h.exif.dpi_y);
    undo_mirror(scan, h.exif.orientation);
    return scan;
  });
}

}  // namespace

Scan decode_jpeg(const InputFile& file, const Place& place, const ScanLimits& limits, Hints hints) {
  return decode(file.handle(), file.size(), place, limits, hints);
}

Scan decode_jpeg(std::string_view bytes, const Place& place, const ScanLimits& limits) {
  return decode(bytes, static_cast<std::int64_t>(bytes.size()), place, limits, Hints::ignore);
}

}  // namespace versolay::scan
