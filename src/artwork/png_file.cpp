#include <bit>
#include <vector>

#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "artwork/picture_decoders.h"
#include "images/png_reader.h"

namespace versolay {
namespace {

/// Rows that a PDF reads as they are: no alpha, no interlacing.
bool has_plain_rows(const images::PngHeader& h) {
  return !h.has_alpha() && !h.interlaced && !h.transparent_colour;
}

CodedImage header_of(const images::PngReader& reader, const std::string& file) {
  const images::PngHeader& h = reader.header();
  check_image_size(h.width_px, h.height_px, file);
  CodedImage image;
  image.width_px = static_cast<int>(h.width_px);
  image.height_px = static_cast<int>(h.height_px);
  image.components = (h.colour_type & PNG_COLOR_MASK_COLOR) != 0 ? 3 : 1;
  image.bits = h.bits;
  image.palette = reader.palette();
  image.orientation = h.orientation;
  image.icc_profile = matching_icc_profile(reader.icc_profile(), image.components);
  set_ppi(image, h.ppi_x, h.ppi_y);
  return image;
}

/// Whole samples, without a palette, over white.
void ask_for_samples_over_white(png_structp png, png_infop info, bool deep) {
  const auto level = static_cast<png_uint_16>(deep ? 65535 : 255);
  const png_color_16 white{0, level, level, level, level};
  png_set_expand(png);
  png_set_background_fixed(png, &white, PNG_BACKGROUND_GAMMA_SCREEN, 0, 0);
  if (deep && std::endian::native == std::endian::little) png_set_swap(png);
  png_set_interlace_handling(png);
  png_read_update_info(png, info);
}

Raster decode(images::PngReader& reader, const CodedImage& header, const std::string& file) {
  Raster raster = empty_raster(header, file);
  std::vector<png_bytep> rows(static_cast<std::size_t>(raster.height_px));
  for (std::size_t y = 0; y < rows.size(); ++y) rows[y] = row_bytes(raster, y);
  const std::size_t expected = raster.row_samples() * (raster.bits == 8 ? 1 : 2);
  reader.run([&](png_structp png, png_infop info) {
    ask_for_samples_over_white(png, info, raster.bits == 16);
    if (png_get_rowbytes(png, info) != expected) png_error(png, "unexpected samples");
    png_read_image(png, rows.data());
    png_read_end(png, nullptr);
  });
  spread_bytes(raster);
  return oriented(std::move(raster), header.orientation);
}

}  // namespace

CodedImage parse_png(const PictureFile& file) {
  images::PngReader reader(file.bytes);
  CodedImage image = header_of(reader, file.name);
  if (!has_plain_rows(reader.header())) return coded_again(decode(reader, image, file.name));
  reader.keep_image_data();
  int last_colour = 0;
  reader.run([&](png_structp png, png_infop info) {
    for (int y = 0; y < image.height_px; ++y) png_read_row(png, nullptr, nullptr);
    png_read_end(png, nullptr);
    last_colour = png_get_palette_max(png, info);
  });
  if (reader.surplus()) images::damaged("its pixels do not unpack");
  const std::size_t colours = image.palette.size() / 3;
  if (colours > 0 && last_colour == static_cast<int>(colours)) {  // more is an error of libpng's
    images::damaged("it uses colour " + std::to_string(colours + 1) + " of a palette of " +
                    std::to_string(colours));
  }
  image.data = reader.image_data();
  return image;
}

Raster decode_png(const PictureFile& file) {
  images::PngReader reader(file.bytes);
  return decode(reader, header_of(reader, file.name), file.name);
}

}  // namespace versolay
