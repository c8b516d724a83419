#include "artwork/png_file.h"

#include <zlib.h>

#include <algorithm>
#include <vector>

#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "images/png_reader.h"

namespace versolay {
namespace {

constexpr std::size_t kSignatureBytes = 8;

/// Rows that a PDF reads as they are: no alpha, no interlacing.
bool has_plain_rows(const images::PngHeader& h) {
  return !h.has_alpha() && !h.interlaced && !h.transparent_colour;
}

bool says_its_density(const images::PngHeader& h) { return h.ppi_x > 1 && h.ppi_y > 1; }

/// The compressed rows: the bodies of all IDAT chunks, their check sums verified.
std::string rows_of(std::string_view bytes) {
  std::string rows;
  for (std::size_t at = kSignatureBytes;;) {
    if (at + 12 > bytes.size()) images::damaged("it is cut short");
    const std::size_t length = big_endian(bytes, at, 4);
    if (length > bytes.size() - at - 12) images::damaged("it is cut short");
    const std::string_view type = bytes.substr(at + 4, 4);
    if (type == "IDAT") {
      const auto sum =
          crc32(0, reinterpret_cast<const Bytef*>(type.data()), static_cast<uInt>(length + 4));
      if (sum != big_endian(bytes, at + 8 + length, 4)) images::damaged("check sum of its pixels");
      rows += bytes.substr(at + 8, length);
    }
    if (type == "IEND") return rows;
    at += 12 + length;
  }
}

/// Reads all rows as they are stored, through libpng: they must be whole, and palette indices must
/// be colours of the palette.
void check_rows(images::PngReader& reader) {
  const images::PngHeader& h = reader.header();
  if (h.has_palette()) {
    reader.run([](png_structp png, png_infop info) {
      png_set_packing(png);
      png_read_update_info(png, info);
    });
  }
  std::size_t row_bytes = 0;
  reader.run([&](png_structp png, png_infop info) { row_bytes = png_get_rowbytes(png, info); });
  std::vector<unsigned char> row(row_bytes);
  unsigned char last_colour = 0;
  for (png_uint_32 y = 0; y < h.height_px; ++y) {
    reader.run([&](png_structp png, png_infop) { png_read_row(png, row.data(), nullptr); });
    if (h.has_palette())
      last_colour = std::max(last_colour, *std::max_element(row.begin(), row.end()));
  }
  reader.run([](png_structp png, png_infop) { png_read_end(png, nullptr); });
  if (reader.surplus()) images::damaged("its pixels do not unpack");
  const std::size_t colours = reader.palette().size() / 3;
  if (h.has_palette() && last_colour >= colours) {
    images::damaged("it uses colour " + std::to_string(last_colour + 1) + " of a palette of " +
                    std::to_string(colours));
  }
}

/// Samples of a row as libpng writes them, transparency laid over white.
class RowOverWhite {
 public:
  RowOverWhite(int stored_channels, const Raster& raster)
      : stored_(static_cast<std::size_t>(stored_channels)),
        channels_(static_cast<std::size_t>(raster.channels)),
        width_(static_cast<std::size_t>(raster.width_px)),
        wide_(raster.bits == 16),
        largest_(static_cast<std::uint32_t>(raster.largest())) {}

  void convert(const unsigned char* row, std::uint16_t* out) const {
    for (std::size_t x = 0; x < width_; ++x) {
      const std::size_t from = x * stored_;
      const std::uint32_t opacity = stored_ > channels_ ? sample(row, from + channels_) : largest_;
      for (std::size_t c = 0; c < channels_; ++c) {
        *out++ = over_white(sample(row, from + c), opacity, largest_);
      }
    }
  }

 private:
  std::uint32_t sample(const unsigned char* row, std::size_t i) const {
    return wide_ ? static_cast<std::uint32_t>(row[2 * i] << 8 | row[2 * i + 1]) : row[i];
  }
  std::size_t stored_;
  std::size_t channels_;
  std::size_t width_;
  bool wide_;
  std::uint32_t largest_;
};

void decode_rows(images::PngReader& reader, std::size_t row_bytes, const RowOverWhite& rows,
                 Raster& raster) {
  const auto height = static_cast<std::size_t>(raster.height_px);
  const std::size_t row_samples = raster.samples.size() / height;
  if (!reader.header().interlaced) {
    std::vector<unsigned char> row(row_bytes);
    for (std::size_t y = 0; y < height; ++y) {
      reader.run([&](png_structp png, png_infop) { png_read_row(png, row.data(), nullptr); });
      rows.convert(row.data(), raster.samples.data() + y * row_samples);
    }
    return;
  }
  std::vector<unsigned char> pixels(row_bytes * height);
  std::vector<png_bytep> places(height);
  for (std::size_t y = 0; y < height; ++y) places[y] = pixels.data() + y * row_bytes;
  reader.run([&](png_structp png, png_infop) { png_read_image(png, places.data()); });
  for (std::size_t y = 0; y < height; ++y) {
    rows.convert(places[y], raster.samples.data() + y * row_samples);
  }
}

/// What libpng gives when it is asked for whole samples: no palette, 1, 2 or 4 bit; transparency as
/// a channel.
struct WholeSamples {
  int channels = 0;
  int bits = 0;
  std::size_t row_bytes = 0;
};
WholeSamples ask_for_whole_samples(images::PngReader& reader) {
  WholeSamples samples;
  reader.run([&](png_structp png, png_infop info) {
    png_set_expand(png);
    png_set_interlace_handling(png);
    png_read_update_info(png, info);
    samples = {png_get_channels(png, info), png_get_bit_depth(png, info),
               png_get_rowbytes(png, info)};
  });
  return samples;
}

Raster decode(images::PngReader& reader, const std::string& file) {
  const images::PngHeader& h = reader.header();
  Raster raster;
  raster.width_px = static_cast<int>(h.width_px);
  raster.height_px = static_cast<int>(h.height_px);
  check_pixels_to_decode(raster.width_px, raster.height_px, file);
  const WholeSamples stored = ask_for_whole_samples(reader);
  if (says_its_density(h)) {
    raster.ppi_x = h.ppi_x;
    raster.ppi_y = h.ppi_y;
  }
  raster.channels =
      stored.channels == 2 || stored.channels == 4 ? stored.channels - 1 : stored.channels;
  raster.bits = stored.bits;
  raster.icc_profile = matching_icc_profile(reader.icc_profile(), raster.channels);
  raster.samples.resize(static_cast<std::size_t>(raster.width_px) *
                        static_cast<std::size_t>(raster.height_px) *
                        static_cast<std::size_t>(raster.channels));
  decode_rows(reader, stored.row_bytes, RowOverWhite(stored.channels, raster), raster);
  reader.run([](png_structp png, png_infop) { png_read_end(png, nullptr); });
  return oriented(std::move(raster), h.orientation);
}

CodedImage coded(images::PngReader& reader, std::string_view bytes, const std::string& file) {
  const images::PngHeader& h = reader.header();
  check_image_size(h.width_px, h.height_px, file);
  if (!has_plain_rows(h)) return coded_again(decode(reader, file), file);
  check_rows(reader);
  CodedImage image;
  image.file = file;
  image.width_px = static_cast<int>(h.width_px);
  image.height_px = static_cast<int>(h.height_px);
  image.components = h.colour_type == PNG_COLOR_TYPE_GRAY ? 1 : 3;
  image.bits = h.bits;
  image.palette = reader.palette();
  image.orientation = h.orientation;
  image.icc_profile = matching_icc_profile(reader.icc_profile(), image.components);
  if (says_its_density(h)) {
    image.ppi_x = h.ppi_x;
    image.ppi_y = h.ppi_y;
  }
  image.data = rows_of(bytes);
  return image;
}

}  // namespace

CodedImage parse_png(std::string_view bytes, const std::string& file) {
  try {
    images::PngReader reader(bytes);
    return coded(reader, bytes, file);
  } catch (const images::PictureError& fault) {
    throw in_words(fault, "PNG", file);
  }
}

Raster decode_png(std::string_view bytes, const std::string& file) {
  try {
    images::PngReader reader(bytes);
    check_image_size(reader.header().width_px, reader.header().height_px, file);
    return decode(reader, file);
  } catch (const images::PictureError& fault) {
    throw in_words(fault, "PNG", file);
  }
}

}  // namespace versolay
