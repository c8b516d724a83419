#include "artwork/coded_image.h"

#include <zlib.h>

#include <algorithm>
#include <cctype>

#include "artwork/findings.h"
#include "artwork/image_checks.h"
#include "artwork/jpeg_file.h"
#include "artwork/png_file.h"
#include "artwork/raster.h"
#include "artwork/tiff_file.h"
#include "core/files.h"
#include "images/jpeg_reader.h"
#include "images/png_reader.h"
#include "images/tiff_reader.h"
#include "versolay/result.h"

namespace versolay {
namespace {

Error not_an_image(const std::string& file, std::string_view bytes) {
  if (bytes.empty()) return Error(file, findings::picture_empty());
  return Error(file, findings::not_a_picture());
}

std::uint32_t sum_of(std::string_view data) {
  return static_cast<std::uint32_t>(
      crc32_z(0, reinterpret_cast<const Bytef*>(data.data()), data.size()));
}

}  // namespace

CodedImage coded_again(Raster raster, const std::string& file) {
  CodedImage image;
  image.file = file;
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

bool has_image_name(const std::filesystem::path& path) {
  std::string extension = path.extension().string();
  std::transform(extension.begin(), extension.end(), extension.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return extension == ".jpg" || extension == ".jpeg" || extension == ".png" ||
         extension == ".tif" || extension == ".tiff";
}

CodedImage read_coded_image(const std::filesystem::path& path, int page) {
  std::string bytes = read_file(path);
  const std::string file = path.string();
  const bool tiff = images::looks_like_tiff(bytes);
  if (!tiff) check_page(page, 1, path);
  CodedImage image = images::looks_like_jpeg(bytes)  ? parse_jpeg(std::move(bytes), file)
                     : images::looks_like_png(bytes) ? parse_png(bytes, file)
                     : tiff                          ? parse_tiff(bytes, page, file)
                                                     : throw not_an_image(file, bytes);
  image.data_size = image.data.size();
  image.data_sum = sum_of(image.data);
  return image;
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

int pages_in(const std::filesystem::path& image) {
  const std::string bytes = read_file(image);
  return images::looks_like_tiff(bytes) ? tiff_pages(bytes, image.string()) : 1;
}

Raster read_raster(const std::filesystem::path& path, int page) {
  const std::string bytes = read_file(path);
  if (images::looks_like_png(bytes)) return decode_png(bytes, path.string());
  if (images::looks_like_tiff(bytes)) return decode_tiff(bytes, page, path.string());
  if (!images::looks_like_jpeg(bytes)) throw not_an_image(path.string(), bytes);
  return decode_jpeg(bytes, path.string());
}

}  // namespace versolay
