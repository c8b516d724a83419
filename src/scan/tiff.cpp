// TIFF, strip by strip or tile by tile into the grey plane.
#include <algorithm>
#include <memory>
#include <vector>

#include "images/tiff_rows.h"
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

/// Rows of samples as libtiff decodes them, to rows of grey.
class RowConverter {
 public:
  RowConverter(const images::TiffReader& file, const images::TiffLayout& layout) : layout_(layout) {
    if (!layout.is_colour()) table_ = value_table(file, layout);
    plain_ =
        layout.bits == 8 && layout.samples == 1 && layout.photometric == PHOTOMETRIC_MINISBLACK;
  }

  void convert(const images::TiffRun& run, std::uint8_t* grey) {
    const std::uint8_t* samples = run.samples;
    const std::size_t n = run.width;
    const std::size_t stride = run.stride;
    if (plain_) return void(std::copy_n(samples, n, grey));
    if (layout_.bits < 8) return grey_from_packed(samples, layout_.bits, grey, n, table_);
    if (layout_.bits == 16) {
      bytes_.resize(n * stride);
      bytes_from_16_bits(reinterpret_cast<const std::uint16_t*>(samples), bytes_.data(),
                         n * stride);
      samples = bytes_.data();
    }
    colours_to_grey(samples, stride, grey, n);
    if (layout_.alpha && stride > layout_.colours()) {
      see_through(samples + layout_.colours(), stride, grey, n);
    }
  }

 private:
  void colours_to_grey(const std::uint8_t* samples, std::size_t stride, std::uint8_t* grey,
                       std::size_t n) const {
    if (layout_.is_colour() && stride == 3) return grey_from_rgb(samples, grey, n);
    for (std::size_t i = 0; i < n; ++i) {
      const std::uint8_t* s = samples + i * stride;
      grey[i] = layout_.is_colour() ? luma(s[0], s[1], s[2]) : table_[s[0]];
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

bool has_large_strips(TIFF* tiff) {
  if (TIFFIsTiled(tiff) != 0) return false;
  for (std::uint32_t s = 0; s < TIFFNumberOfStrips(tiff); ++s) {
    if (TIFFGetStrileByteCount(tiff, s) > kMapStripsFrom) return true;
  }
  return false;
}

/// Where the directories of the pages begin.
std::vector<toff_t> page_directories(images::TiffReader& file, const Place& place) {
  std::vector<toff_t> pages = file.picture_directories(kMostPages);
  if (pages.empty()) throw Error(place.text(), findings::scan_thumbnail_only());
  if (pages.size() > kMostPages) {
    throw Error(place.text(), findings::too_many_scan_pages(static_cast<std::int64_t>(kMostPages)));
  }
  return pages;
}

void read_pixels(images::TiffReader& file, const images::TiffLayout& layout, GreyImage& plane) {
  RowConverter rows(file, layout);
  file.expect_pixels();
  images::read_rows(file, layout, layout.tiled ? kLargestTile : kLargestPlaneStrip,
                    [&](const images::TiffRun& run) {
                      rows.convert(run, plane.row(static_cast<int>(run.y)) + run.x);
                    });
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
  return decoding(place, [&] {
    images::TiffReader reader(file.descriptor(), file.size(), images::TiffAccess::read);
    return static_cast<int>(page_directories(reader, place).size());
  });
}

Scan decode_tiff(const InputFile& input, Place place, const ScanLimits& limits, Hints hints) {
  return decoding(place, [&] { return decode_page(input, place, limits, hints); });
}

}  // namespace versolay::scan
