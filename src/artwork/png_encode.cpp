#include <png.h>
#include <zlib.h>

#include <cmath>
#include <csetjmp>
#include <new>
#include <stdexcept>

#include "artwork/raster.h"

namespace versolay {
namespace {

constexpr double kMetresPerInch = 0.0254;

/// The body of an iCCP chunk: name, 0, method 0, zlib stream. Written as it is, because libpng
/// would rather write no image than a profile that it finds fault with.
std::string profile_chunk(const std::string& profile) {
  if (profile.empty()) return {};
  uLongf size = compressBound(static_cast<uLong>(profile.size()));
  std::string packed(size, '\0');
  if (compress(reinterpret_cast<Bytef*>(packed.data()), &size,
               reinterpret_cast<const Bytef*>(profile.data()),
               static_cast<uLong>(profile.size())) != Z_OK) {
    throw std::bad_alloc();
  }
  packed.resize(size);
  return std::string("profile\0\0", 9) + packed;
}

/// libpng with its errors caught. Nothing with a destructor may live between setjmp and the calls
/// that can jump.
struct Encoder {
  png_structp png = nullptr;
  png_infop info = nullptr;
  std::string bytes;

  static void append(png_structp png, png_bytep from, png_size_t count) {
    static_cast<std::string*>(png_get_io_ptr(png))->append(reinterpret_cast<char*>(from), count);
  }

  static void fail(png_structp png, png_const_charp) { png_longjmp(png, 1); }
  static void ignore(png_structp, png_const_charp) {}

  Encoder() {
    png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, &Encoder::fail, &Encoder::ignore);
    info = png != nullptr ? png_create_info_struct(png) : nullptr;
    if (info == nullptr) {
      png_destroy_write_struct(&png, nullptr);
      throw std::bad_alloc();
    }
    png_set_write_fn(png, &bytes, &Encoder::append, nullptr);
  }
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;
  ~Encoder() { png_destroy_write_struct(&png, &info); }

  bool write(const Raster& r, const std::string& profile_chunk, png_bytepp rows) {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_set_IHDR(png, info, static_cast<png_uint_32>(r.width_px),
                 static_cast<png_uint_32>(r.height_px), r.bits,
                 r.channels == 1 ? PNG_COLOR_TYPE_GRAY : PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    if (r.ppi_x && r.ppi_y) {
      png_set_pHYs(png, info, static_cast<png_uint_32>(std::lround(*r.ppi_x / kMetresPerInch)),
                   static_cast<png_uint_32>(std::lround(*r.ppi_y / kMetresPerInch)),
                   PNG_RESOLUTION_METER);
    }
    png_write_info(png, info);
    if (!profile_chunk.empty()) {
      png_write_chunk(png, reinterpret_cast<png_const_bytep>("iCCP"),
                      reinterpret_cast<png_const_bytep>(profile_chunk.data()),
                      profile_chunk.size());
    }
    png_write_image(png, rows);
    png_write_end(png, nullptr);
    return true;
  }
};

}  // namespace

std::string encode_png(const Raster& raster) {
  const std::size_t row =
      static_cast<std::size_t>(raster.width_px) * static_cast<std::size_t>(raster.channels);
  const std::size_t sample_bytes = raster.bits == 8 ? 1 : 2;
  std::vector<unsigned char> pixels;
  pixels.reserve(raster.samples.size() * sample_bytes);
  for (std::uint16_t s : raster.samples) {
    if (raster.bits == 16) pixels.push_back(static_cast<unsigned char>(s >> 8));
    pixels.push_back(static_cast<unsigned char>(s & 0xFF));
  }
  std::vector<png_bytep> rows(static_cast<std::size_t>(raster.height_px));
  for (std::size_t y = 0; y < rows.size(); ++y) rows[y] = pixels.data() + y * row * sample_bytes;
  const std::string profile = profile_chunk(raster.icc_profile);
  Encoder encoder;
  if (!encoder.write(raster, profile, rows.data())) {
    throw std::runtime_error("a PNG could not be written");
  }
  return std::move(encoder.bytes);
}

}  // namespace versolay
