#include <png.h>
#include <zlib.h>

#include <bit>
#include <cmath>
#include <csetjmp>
#include <new>
#include <stdexcept>

#include "artwork/raster.h"
#include "artwork/rgba.h"
#include "core/expect.h"

namespace versolay {
namespace {

constexpr double kMetresPerInch = 0.0254;
constexpr png_uint_32 kImageData = 0x49444154;  // IDAT

/// The body of an iCCP chunk: name, 0, method 0, zlib stream. Written as it is, because libpng
/// would rather write no image than a profile that it finds fault with.
std::string profile_chunk(const std::string& profile) {
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

struct Picture {
  int width_px = 0;
  int height_px = 0;
  int channels = 3;
  int bits = 8;
  std::vector<png_const_bytep> rows = {};  // of 16 bits: in native byte order
  std::optional<double> ppi_x = {};
  std::optional<double> ppi_y = {};
  std::string profile_chunk = {};
  bool rows_only = false;  // just the bodies of the IDAT chunks, each row less the one above
};

/// libpng with its errors caught. Nothing with a destructor may live between setjmp and the calls
/// that can jump.
class Encoder {
 public:
  Encoder() {
    png_ =
        png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, &Encoder::fail, &Encoder::ignore);
    if (png_ != nullptr) info_ = png_create_info_struct(png_);
    if (info_ == nullptr) {
      png_destroy_write_struct(&png_, nullptr);
      throw std::bad_alloc();
    }
    png_set_write_fn(png_, this, &Encoder::append, nullptr);
  }
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;
  ~Encoder() { png_destroy_write_struct(&png_, &info_); }

  std::string write(const Picture& picture) {
    rows_only_ = picture.rows_only;
    if (!completes(picture)) throw std::runtime_error("a PNG could not be written");
    return std::move(bytes_);
  }

 private:
  static void append(png_structp png, png_bytep from, png_size_t count) {
    auto* self = static_cast<Encoder*>(png_get_io_ptr(png));
    const bool body = (png_get_io_state(png) & PNG_IO_MASK_LOC) == PNG_IO_CHUNK_DATA;
    if (self->rows_only_ && !(body && png_get_io_chunk_type(png) == kImageData)) return;
    self->bytes_.append(reinterpret_cast<char*>(from), count);
  }
  static void fail(png_structp png, png_const_charp) { png_longjmp(png, 1); }
  static void ignore(png_structp, png_const_charp) {}

  bool completes(const Picture& p) {
    constexpr int kColourTypes[] = {0, PNG_COLOR_TYPE_GRAY, PNG_COLOR_TYPE_GRAY_ALPHA,
                                    PNG_COLOR_TYPE_RGB, PNG_COLOR_TYPE_RGB_ALPHA};
    if (setjmp(png_jmpbuf(png_)) != 0) return false;
    png_set_IHDR(png_, info_, static_cast<png_uint_32>(p.width_px),
                 static_cast<png_uint_32>(p.height_px), p.bits, kColourTypes[p.channels],
                 PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    if (p.ppi_x && p.ppi_y) {
      png_set_pHYs(png_, info_, static_cast<png_uint_32>(std::lround(*p.ppi_x / kMetresPerInch)),
                   static_cast<png_uint_32>(std::lround(*p.ppi_y / kMetresPerInch)),
                   PNG_RESOLUTION_METER);
    }
    if (p.rows_only) png_set_filter(png_, PNG_FILTER_TYPE_BASE, PNG_FILTER_UP);
    png_write_info(png_, info_);
    if (!p.profile_chunk.empty()) {
      png_write_chunk(png_, reinterpret_cast<png_const_bytep>("iCCP"),
                      reinterpret_cast<png_const_bytep>(p.profile_chunk.data()),
                      p.profile_chunk.size());
    }
    if (p.bits == 16 && std::endian::native == std::endian::little) png_set_swap(png_);
    for (const png_const_bytep row : p.rows) png_write_row(png_, row);
    png_write_end(png_, nullptr);
    return true;
  }

  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  bool rows_only_ = false;
  std::string bytes_;
};

std::string written(const Raster& raster, bool rows_only) {
  Picture picture{.width_px = raster.width_px,
                  .height_px = raster.height_px,
                  .channels = raster.channels,
                  .bits = raster.bits,
                  .ppi_x = raster.ppi_x,
                  .ppi_y = raster.ppi_y,
                  .rows_only = rows_only};
  if (!raster.icc_profile.empty()) picture.profile_chunk = profile_chunk(raster.icc_profile);
  std::vector<unsigned char> bytes;
  if (raster.bits == 8) bytes.assign(raster.samples.begin(), raster.samples.end());
  for (std::size_t y = 0; y < static_cast<std::size_t>(raster.height_px); ++y) {
    const std::size_t first = y * raster.row_samples();
    picture.rows.push_back(raster.bits == 8
                               ? &bytes[first]
                               : reinterpret_cast<png_const_bytep>(&raster.samples[first]));
  }
  return Encoder().write(picture);
}

}  // namespace

std::string encode_png(const Raster& raster) {
  expect(raster.channels == 1 || raster.channels == 3);
  return written(raster, false);
}

std::string encode_png(const RgbaImage& image, double ppi) {
  Picture picture{.width_px = image.width_px,
                  .height_px = image.height_px,
                  .channels = 4,
                  .ppi_x = ppi,
                  .ppi_y = ppi};
  const std::size_t row = static_cast<std::size_t>(image.width_px) * 4;
  for (std::size_t at = 0; at < image.samples.size(); at += row) {
    picture.rows.push_back(&image.samples[at]);
  }
  return Encoder().write(picture);
}

std::string png_rows(const Raster& raster) {
  return written(raster, true);  // as RGB and alpha, if it is CMYK
}

}  // namespace versolay
