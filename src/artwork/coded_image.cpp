#include "artwork/coded_image.h"

#include <zlib.h>

#include <array>

#include "artwork/findings.h"
#include "artwork/image_checks.h"
#include "artwork/picture_decoders.h"
#include "artwork/raster.h"
#include "core/file_names.h"
#include "core/files.h"
#include "images/jpeg_reader.h"
#include "images/png_reader.h"
#include "images/tiff_reader.h"
#include "versolay/result.h"

namespace versolay {
namespace {

int one_page(const PictureFile&) { return 1; }

struct Format {
  const char* name;
  bool (*looks_like)(std::string_view bytes);
  int (*pages)(const PictureFile&);
  CodedImage (*parse)(const PictureFile&);
  Raster (*decode)(const PictureFile&);
};
constexpr std::array kFormats = {
    Format{"JPEG", images::looks_like_jpeg, one_page, parse_jpeg, decode_jpeg},
    Format{"PNG", images::looks_like_png, one_page, parse_png, decode_png},
    Format{"TIFF", images::looks_like_tiff, count_tiff_pages, parse_tiff, decode_tiff}};

const Format& format_of(const PictureFile& file) {
  for (const Format& format : kFormats) {
    if (format.looks_like(file.bytes)) return format;
  }
  if (file.bytes.empty()) throw Error(file.name, findings::picture_empty());
  throw Error(file.name, findings::not_a_picture());
}

/// Reads the file in the way of its format that `way` names.
template <class Result>
Result reading(const PictureFile& file, Result (*Format::*way)(const PictureFile&)) {
  const Format& format = format_of(file);
  // A decoder that knows pages checks them itself.
  if (format.pages == one_page) check_page(file.page, 1, file.name);
  try {
    return (format.*way)(file);
  } catch (const images::PictureError& fault) {
    throw in_words(fault, format.name, file.name);
  }
}

std::uint32_t sum_of(std::string_view data) {
  return static_cast<std::uint32_t>(
      crc32_z(0, reinterpret_cast<const Bytef*>(data.data()), data.size()));
}

}  // namespace

CodedImage coded_again(Raster raster) {
  CodedImage image;
  image.coding = PixelCoding::png_rows;
  image.width_px = raster.width_px;
  image.height_px = raster.height_px;
  image.components = raster.channels;
  image.bits = raster.bits;
  image.icc_profile = std::move(raster.icc_profile);
  image.ppi_x = raster.ppi_x;
  image.ppi_y = raster.ppi_y;
  image.recoded = true;
  image.data = png_rows(raster);
  return image;
}

Raster empty_raster(const CodedImage& header, const std::string& file) {
  check_pixels_to_decode(header.width_px, header.height_px, file);
  Raster raster;
  raster.width_px = header.width_px;
  raster.height_px = header.height_px;
  raster.channels = header.components;
  raster.bits = header.bits == 16 ? 16 : 8;
  raster.icc_profile = header.icc_profile;
  raster.ppi_x = header.ppi_x;
  raster.ppi_y = header.ppi_y;
  raster.samples.resize(raster.row_samples() * static_cast<std::size_t>(raster.height_px));
  return raster;
}

void spread_bytes(Raster& raster) {
  if (raster.bits == 16) return;
  for (std::size_t y = 0; y < static_cast<std::size_t>(raster.height_px); ++y) {
    const unsigned char* bytes = row_bytes(raster, y);
    std::uint16_t* samples = raster.samples.data() + y * raster.row_samples();
    // From the end: the bytes are where the first samples go.
    for (std::size_t i = raster.row_samples(); i-- > 0;) samples[i] = bytes[i];
  }
}

bool has_image_name(const std::filesystem::path& path) {
  const std::string extension = lower_extension(path);
  return extension == ".jpg" || extension == ".jpeg" || extension == ".png" ||
         extension == ".tif" || extension == ".tiff";
}

CodedImage parse_image(std::string bytes, const std::string& file, int page) {
  CodedImage image = reading({bytes, file, page}, &Format::parse);
  image.file = file;
  if (image.coding == PixelCoding::jpeg) image.data = std::move(bytes);
  image.data_size = image.data.size();
  image.data_sum = sum_of(image.data);
  return image;
}

CodedImage read_coded_image(const std::filesystem::path& path, int page) {
  return parse_image(read_file(path), path.string(), page);
}

std::string coded_data(const CodedImage& image) {
  if (!image.data.empty()) return image.data;
  // The bytes of a JPEG are its data: what was checked once needs no second decoding.
  std::string data = image.coding == PixelCoding::jpeg
                         ? read_file(image.file)
                         : read_coded_image(image.file, image.page).data;
  if (data.size() != image.data_size || sum_of(data) != image.data_sum) {
    throw Error(image.file, findings::picture_changed());
  }
  return data;
}

int pages_in(std::string_view bytes, const std::string& file) {
  return images::looks_like_tiff(bytes) ? reading({bytes, file}, &Format::pages) : 1;
}

int pages_in(const std::filesystem::path& image) {
  return pages_in(read_file(image), image.string());
}

Raster decode_image(std::string_view bytes, const std::string& file, int page) {
  return reading({bytes, file, page}, &Format::decode);
}

Raster read_raster(const std::filesystem::path& path, int page) {
  return decode_image(read_file(path), path.string(), page);
}

}  // namespace versolay
