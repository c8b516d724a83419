#include <png.h>
#include <zlib.h>

#include <array>
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

std::size_t row_bytes(const Raster& raster) {
  return static_cast<std::size_t>(raster.width_px) * static_cast<std::size_t>(raster.channels) *
         (raster.bits == 8 ? 1 : 2);
}

std::vector<unsigned char> big_endian_row(const Raster& raster, std::size_t y) {
  const std::size_t count = raster.samples.size() / static_cast<std::size_t>(raster.height_px);
  std::vector<unsigned char> row;
  row.reserve(row_bytes(raster));
  for (std::size_t i = y * count; i < (y + 1) * count; ++i) {
    const std::uint16_t s = raster.samples[i];
    if (raster.bits == 16) row.push_back(static_cast<unsigned char>(s >> 8));
    row.push_back(static_cast<unsigned char>(s & 0xFF));
  }
  return row;
}

std::vector<unsigned char> big_endian_samples(const Raster& raster) {
  std::vector<unsigned char> pixels;
  pixels.reserve(row_bytes(raster) * static_cast<std::size_t>(raster.height_px));
  for (std::size_t y = 0; y < static_cast<std::size_t>(raster.height_px); ++y) {
    const std::vector<unsigned char> row = big_endian_row(raster, y);
    pixels.insert(pixels.end(), row.begin(), row.end());
  }
  return pixels;
}

/// Packs bytes piece by piece into one zlib stream.
class Deflater {
 public:
  Deflater() {
    if (deflateInit(&stream_, 6) != Z_OK) throw std::bad_alloc();
  }
  Deflater(const Deflater&) = delete;
  Deflater& operator=(const Deflater&) = delete;
  ~Deflater() { deflateEnd(&stream_); }

  void add(std::vector<unsigned char>& bytes, bool last) {
    std::array<unsigned char, 65536> buffer;
    stream_.next_in = bytes.data();
    stream_.avail_in = static_cast<uInt>(bytes.size());
    do {
      stream_.next_out = buffer.data();
      stream_.avail_out = buffer.size();
      deflate(&stream_, last ? Z_FINISH : Z_NO_FLUSH);
      packed.append(reinterpret_cast<const char*>(buffer.data()),
                    buffer.size() - stream_.avail_out);
    } while (stream_.avail_out == 0);
  }

  std::string packed;

 private:
  z_stream stream_{};
};

struct Header {
  int width_px = 0;
  int height_px = 0;
  int bits = 8;
  int colour_type = PNG_COLOR_TYPE_RGB;
  std::optional<double> ppi_x;
  std::optional<double> ppi_y;
  std::string profile_chunk;
};

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

  bool write(const Header& h, png_bytepp rows) {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_set_IHDR(png, info, static_cast<png_uint_32>(h.width_px),
                 static_cast<png_uint_32>(h.height_px), h.bits, h.colour_type, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    if (h.ppi_x && h.ppi_y) {
      png_set_pHYs(png, info, static_cast<png_uint_32>(std::lround(*h.ppi_x / kMetresPerInch)),
                   static_cast<png_uint_32>(std::lround(*h.ppi_y / kMetresPerInch)),
                   PNG_RESOLUTION_METER);
    }
    png_write_info(png, info);
    if (!h.profile_chunk.empty()) {
      png_write_chunk(png, reinterpret_cast<png_const_bytep>("iCCP"),
                      reinterpret_cast<png_const_bytep>(h.profile_chunk.data()),
                      h.profile_chunk.size());
    }
    png_write_image(png, rows);
    png_write_end(png, nullptr);
    return true;
  }
};

std::string encoded(const Header& header, std::vector<unsigned char>& pixels,
                    std::size_t row_bytes) {
  std::vector<png_bytep> rows(static_cast<std::size_t>(header.height_px));
  for (std::size_t y = 0; y < rows.size(); ++y) rows[y] = pixels.data() + y * row_bytes;
  Encoder encoder;
  if (!encoder.write(header, rows.data())) throw std::runtime_error("a PNG could not be written");
  return std::move(encoder.bytes);
}

}  // namespace

std::string encode_png(const Raster& raster) {
  expect(raster.channels == 1 || raster.channels == 3);
  std::vector<unsigned char> pixels = big_endian_samples(raster);
  return encoded({raster.width_px, raster.height_px, raster.bits,
                  raster.channels == 1 ? PNG_COLOR_TYPE_GRAY : PNG_COLOR_TYPE_RGB, raster.ppi_x,
                  raster.ppi_y, profile_chunk(raster.icc_profile)},
                 pixels, row_bytes(raster));
}

std::string encode_png(const RgbaImage& image, double ppi) {
  std::vector<unsigned char> pixels(image.samples.begin(), image.samples.end());
  return encoded({image.width_px, image.height_px, 8, PNG_COLOR_TYPE_RGB_ALPHA, ppi, ppi, {}},
                 pixels, static_cast<std::size_t>(image.width_px) * 4);
}

std::string png_rows(const Raster& raster) {
  constexpr unsigned char kUp = 2;  // the difference to the sample above
  const std::size_t row = row_bytes(raster);
  const auto height = static_cast<std::size_t>(raster.height_px);
  Deflater deflater;
  std::vector<unsigned char> above(row, 0);
  std::vector<unsigned char> filtered(row + 1);
  filtered[0] = kUp;
  for (std::size_t y = 0; y < height; ++y) {
    const std::vector<unsigned char> samples = big_endian_row(raster, y);
    for (std::size_t i = 0; i < row; ++i) {
      filtered[i + 1] = static_cast<unsigned char>(samples[i] - above[i]);
    }
    deflater.add(filtered, y + 1 == height);
    above = samples;
  }
  return std::move(deflater.packed);
}

}  // namespace versolay
