// TIFF, strip by strip or tile by tile into the grey plane.
#include <algorithm>
#include <cstring>
#include <memory>
#include <vector>

#include "images/tiff_reader.h"
#include "scan/decoders.h"
#include "scan/findings.h"
#include "scan/grey_rows.h"
#include "scan/tiff_layout.h"

namespace versolay::scan {
namespace {

constexpr std::size_t kMostPages = 500;
constexpr std::uint64_t kMapStripsFrom = 4u << 20;       // bytes as stored
constexpr std::uint64_t kLargestTile = 16u << 20;        // bytes, decoded
constexpr std::uint64_t kLargestPlaneStrip = 64u << 20;  // bytes, decoded, one of separate planes
constexpr std::size_t kReleaseEvery = 4u << 20;          // bytes decoded

/// Rows of samples as libtiff decodes them, to rows of grey.
class RowConverter {
 public:
  RowConverter(const images::TiffReader& file, const images::TiffLayout& layout) : layout_(layout) {
    if (!is_colour(layout)) table_ = value_table(file, layout);
    plain_ =
        layout.bits == 8 && layout.samples == 1 && layout.photometric == PHOTOMETRIC_MINISBLACK;
  }

  /// The decoded row is the grey row.
  bool plain() const { return plain_; }

  /// `samples`: n pixels, `stride` samples each, of which the first are the colours (and alpha).
  void convert(const std::uint8_t* samples, std::size_t stride, std::uint8_t* grey, std::size_t n) {
    if (layout_.bits < 8) return grey_from_packed(samples, layout_.bits, grey, n, table_);
    if (layout_.bits == 16) {
      bytes_.resize(n * stride);
      bytes_from_16_bits(reinterpret_cast<const std::uint16_t*>(samples), bytes_.data(),
                         n * stride);
      samples = bytes_.data();
    }
    colours_to_grey(samples, stride, grey, n);
    if (layout_.alpha && stride > colours(layout_)) {
      see_through(samples + colours(layout_), stride, grey, n);
    }
  }

 private:
  void colours_to_grey(const std::uint8_t* samples, std::size_t stride, std::uint8_t* grey,
                       std::size_t n) const {
    if (is_colour(layout_) && stride == 3) return grey_from_rgb(samples, grey, n);
    for (std::size_t i = 0; i < n; ++i) {
      const std::uint8_t* s = samples + i * stride;
      grey[i] = is_colour(layout_) ? luma(s[0], s[1], s[2]) : table_[s[0]];
    }
  }
  void see_through(const std::uint8_t* alpha, std::size_t stride, std::uint8_t* grey,
                   std::size_t n) const {
    for (std::size_t i = 0; i < n; ++i) {
      const unsigned a = alpha[i * stride];
      grey[i] = layout_.premultiplied
                    ? static_cast<std::uint8_t>(std::min(255u, grey[i] + 255u - a))
                    : over_white(grey[i], a);
    }
  }

  images::TiffLayout layout_;
  GreyTable table_{};
  bool plain_ = false;
  std::vector<std::uint8_t> bytes_;
};

void read_scanlines(const images::TiffReader& file, const images::TiffLayout& layout,
                    RowConverter& rows, GreyImage& plane) {
  const auto row_bytes = static_cast<std::size_t>(TIFFScanlineSize64(file.get()));
  std::vector<std::uint8_t> samples(rows.plain() ? 0 : row_bytes);
  std::size_t since_release = 0;
  for (std::uint32_t y = 0; y < layout.height_px; ++y) {
    std::uint8_t* const grey = plane.row(static_cast<int>(y));
    if (TIFFReadScanline(file.get(), rows.plain() ? grey : samples.data(), y, 0) != 1) {
      file.fail("row " + std::to_string(y + 1) + " is missing");
    }
    if (!rows.plain()) rows.convert(samples.data(), layout.samples, grey, layout.width_px);
    since_release += row_bytes;
    if (since_release >= kReleaseEvery) {
      file.release_mapped();
      file.check();
      since_release = 0;
    }
  }
}

/// Colours (and alpha) of one pixel after the other, from planes that hold one sample each.
void interleave(const std::vector<std::vector<std::uint8_t>>& planes, std::size_t offset,
                std::size_t sample_bytes, std::size_t n, std::uint8_t* interleaved) {
  const std::size_t stride = planes.size() * sample_bytes;
  for (std::size_t s = 0; s < planes.size(); ++s) {
    const std::uint8_t* from = planes[s].data() + offset;
    std::uint8_t* to = interleaved + s * sample_bytes;
    for (std::size_t i = 0; i < n; ++i) {
      std::memcpy(to + i * stride, from + i * sample_bytes, sample_bytes);
    }
  }
}

std::size_t planes_used(const images::TiffLayout& layout) {
  return colours(layout) + (layout.alpha ? 1 : 0);
}

void read_planar_strips(const images::TiffReader& file, const images::TiffLayout& layout,
                        RowConverter& rows, GreyImage& plane) {
  TIFF* const tiff = file.get();
  const std::uint64_t strip_bytes = TIFFStripSize64(tiff);
  if (strip_bytes > kLargestPlaneStrip) {
    throw images::PictureError(images::PictureFault::unsupported,
                               "separate colour planes in one piece");
  }
  std::uint32_t rows_per_strip = layout.height_px;
  TIFFGetFieldDefaulted(tiff, TIFFTAG_ROWSPERSTRIP, &rows_per_strip);
  rows_per_strip = std::min(rows_per_strip, layout.height_px);
  const std::size_t sample_bytes = layout.bits / 8u;
  std::vector<std::vector<std::uint8_t>> planes(planes_used(layout));
  for (auto& p : planes) p.resize(static_cast<std::size_t>(strip_bytes));
  std::vector<std::uint8_t> samples(layout.width_px * planes.size() * sample_bytes);

  for (std::uint32_t y0 = 0; y0 < layout.height_px; y0 += rows_per_strip) {
    const std::uint32_t n_rows = std::min(rows_per_strip, layout.height_px - y0);
    for (std::size_t s = 0; s < planes.size(); ++s) {
      const auto wanted = static_cast<tmsize_t>(n_rows * layout.width_px * sample_bytes);
      const std::uint32_t strip = TIFFComputeStrip(tiff, y0, static_cast<std::uint16_t>(s));
      if (TIFFReadEncodedStrip(tiff, strip, planes[s].data(), wanted) != wanted) {
        file.fail("strip " + std::to_string(strip + 1) + " is missing");
      }
    }
    for (std::uint32_t r = 0; r < n_rows; ++r) {
      interleave(planes, r * layout.width_px * sample_bytes, sample_bytes, layout.width_px,
                 samples.data());
      rows.convert(samples.data(), planes.size(), plane.row(static_cast<int>(y0 + r)),
                   layout.width_px);
    }
    file.release_mapped();
  }
}

struct TileSize {
  std::uint32_t width = 0;
  std::uint32_t height = 0;
};

TileSize tile_size(const images::TiffReader& file) {
  TileSize size;
  TIFFGetField(file.get(), TIFFTAG_TILEWIDTH, &size.width);
  TIFFGetField(file.get(), TIFFTAG_TILELENGTH, &size.height);
  if (size.width == 0 || size.height == 0 || TIFFTileSize64(file.get()) > kLargestTile) {
    throw images::PictureError(
        images::PictureFault::unsupported,
        "tiles of " + std::to_string(size.width) + " x " + std::to_string(size.height) + " pixels");
  }
  return size;
}

void read_tiles(const images::TiffReader& file, const images::TiffLayout& layout,
                RowConverter& rows, GreyImage& plane) {
  TIFF* const tiff = file.get();
  const TileSize size = tile_size(file);
  const auto tile_bytes = static_cast<std::size_t>(TIFFTileSize64(tiff));
  const auto row_bytes = static_cast<std::size_t>(TIFFTileRowSize64(tiff));
  const std::size_t sample_bytes = layout.bits / 8u;  // 0 below 8 bits: never planar
  const std::size_t used = layout.planar ? planes_used(layout) : 1;
  std::vector<std::vector<std::uint8_t>> planes(used, std::vector<std::uint8_t>(tile_bytes));
  std::vector<std::uint8_t> samples(layout.planar ? size.width * used * sample_bytes : 0);

  for (std::uint32_t y0 = 0; y0 < layout.height_px; y0 += size.height) {
    const std::uint32_t n_rows = std::min(size.height, layout.height_px - y0);
    for (std::uint32_t x0 = 0; x0 < layout.width_px; x0 += size.width) {
      const std::uint32_t n = std::min(size.width, layout.width_px - x0);
      for (std::size_t s = 0; s < used; ++s) {
        const std::uint32_t tile = TIFFComputeTile(tiff, x0, y0, 0, static_cast<std::uint16_t>(s));
        const auto wanted = static_cast<tmsize_t>(tile_bytes);
        if (TIFFReadEncodedTile(tiff, tile, planes[s].data(), wanted) != wanted) {
          file.fail("tile " + std::to_string(tile + 1) + " is missing");
        }
      }
      for (std::uint32_t r = 0; r < n_rows; ++r) {
        std::uint8_t* const grey = plane.row(static_cast<int>(y0 + r)) + x0;
        if (layout.planar) {
          interleave(planes, r * row_bytes, sample_bytes, n, samples.data());
          rows.convert(samples.data(), used, grey, n);
        } else {
          rows.convert(planes[0].data() + r * row_bytes, layout.samples, grey, n);
        }
      }
    }
    file.release_mapped();
    file.check();
  }
}

bool has_large_strips(TIFF* tiff) {
  if (TIFFIsTiled(tiff) != 0) return false;
  for (std::uint32_t s = 0; s < TIFFNumberOfStrips(tiff); ++s) {
    if (TIFFGetStrileByteCount(tiff, s) > kMapStripsFrom) return true;
  }
  return false;
}

/// Where the directories of the pages begin.
std::vector<toff_t> page_directories(images::TiffReader& file, const Place& place) {
  try {
    auto pages = file.picture_directories(kMostPages);
    if (pages.empty()) throw Error(place.text(), findings::scan_thumbnail_only());
    return pages;
  } catch (const images::PictureError& fault) {
    if (fault.fault() != images::PictureFault::too_large) throw;
    throw Error(place.text(), findings::too_many_scan_pages(static_cast<std::int64_t>(kMostPages)));
  }
}

void read_pixels(images::TiffReader& file, const images::TiffLayout& layout, GreyImage& plane) {
  RowConverter rows(file, layout);
  file.expect_pixels();
  if (layout.tiled) {
    read_tiles(file, layout, rows, plane);
  } else if (layout.planar) {
    read_planar_strips(file, layout, rows, plane);
  } else {
    read_scanlines(file, layout, rows, plane);
  }
  file.check();
}

Scan decode_page(const InputFile& input, Place& place, const ScanLimits& limits, Hints hints) {
  auto file = std::make_unique<images::TiffReader>(input.descriptor(), input.size(),
                                                   images::TiffAccess::read);
  const std::vector<toff_t> directories = page_directories(*file, place);
  toff_t directory = directories.front();
  if (hints == Hints::use) {
    place.pages = static_cast<int>(directories.size());
    check_page(place);
    directory = directories[static_cast<std::size_t>(place.page - 1)];
  }
  const auto open_page = [&](images::TiffReader& f) {
    if (TIFFSetSubDirectory(f.get(), directory) == 0) f.fail("the page cannot be reached");
  };
  open_page(*file);
  images::TiffLayout layout = layout_of(*file);
  check_size(place, layout.width_px, layout.height_px, std::int64_t{layout.bits} * layout.samples,
             limits);
  if (has_large_strips(file->get())) {
    file = std::make_unique<images::TiffReader>(input.descriptor(), input.size(),
                                                images::TiffAccess::map);
    open_page(*file);
  }
  if (layout.photometric == PHOTOMETRIC_YCBCR && layout.compression == COMPRESSION_JPEG) {
    TIFFSetField(file->get(), TIFFTAG_JPEGCOLORMODE, JPEGCOLORMODE_RGB);
    layout.photometric = PHOTOMETRIC_RGB;
  }
  check_layout(place, layout);
  check_length(place, layout, input.size());
  file->check();

  Scan scan = scan_of(place);
  add_plane(scan, place, static_cast<int>(layout.width_px), static_cast<int>(layout.height_px),
            limits);
  read_pixels(*file, layout, scan.grey);
  if (layout.bits == 1) warn_black_and_white(scan);
  if (hints == Hints::ignore) return scan;
  set_dpi(scan, layout.ppi_x, layout.ppi_y);
  undo_mirror(scan, layout.orientation);
  return scan;
}

}  // namespace

int count_tiff_pages(const InputFile& file, const Place& place) {
  try {
    images::TiffReader reader(file.descriptor(), file.size(), images::TiffAccess::read);
    return static_cast<int>(page_directories(reader, place).size());
  } catch (const images::PictureError& fault) {
    throw in_words(fault, place);
  }
}

Scan decode_tiff(const InputFile& input, Place place, const ScanLimits& limits, Hints hints) {
  try {
    return decode_page(input, place, limits, hints);
  } catch (const images::PictureError& fault) {
    throw in_words(fault, place);
  }
}

}  // namespace versolay::scan
