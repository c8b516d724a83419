#include "artwork/png_file.h"

#include <png.h>
#include <zlib.h>

#include <array>
#include <csetjmp>
#include <cstring>
#include <vector>

#include "artwork/image_checks.h"
#include "core/translation.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using namespace std::string_view_literals;
constexpr std::string_view kSignature = "\x89PNG\r\n\x1a\n"sv;
constexpr double kMetresPerInch = 0.0254;

Error damaged(const std::string& file, const std::string& how) {
  return Error(file, tr("is a damaged PNG ({}). Export or copy it again", how));
}

/// The chunks that matter here, each with its check sum verified.
struct Chunks {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  int bits = 0;
  int colour_type = 0;  // 0 grey, 2 RGB, 3 palette, 4 grey + alpha, 6 RGB + alpha
  bool interlaced = false;
  bool transparent_colour = false;  // tRNS
  std::string icc_profile;
  std::optional<double> ppi_x;
  std::optional<double> ppi_y;
  std::string palette;  // PLTE: RGB triples
  std::string rows;     // IDAT, put together

  bool has_palette() const { return colour_type == 3; }
  /// Rows that a PDF reads as they are: no alpha, no interlacing.
  bool plain_rows() const {
    const bool known = colour_type == 0 || colour_type == 2 || (has_palette() && whole_palette());
    return known && !interlaced && !transparent_colour;
  }
  bool whole_palette() const { return !palette.empty() && palette.size() % 3 == 0; }
};

/// Inflates at most `limit` bytes and hands them on in pieces.
/// Returns false when the stream is damaged, cut short or longer than the limit.
template <class Take>
bool inflate_all(std::string_view packed, std::uint64_t limit, const Take& take) {
  z_stream stream{};
  if (inflateInit(&stream) != Z_OK) throw std::bad_alloc();
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
  stream.avail_in = static_cast<uInt>(packed.size());
  std::array<unsigned char, 65536> buffer;
  std::uint64_t total = 0;
  int state = Z_OK;
  while (state == Z_OK) {
    stream.next_out = buffer.data();
    stream.avail_out = buffer.size();
    state = inflate(&stream, Z_NO_FLUSH);
    const std::size_t count = buffer.size() - stream.avail_out;
    total += count;
    if (total > limit) break;
    if (state == Z_OK || state == Z_STREAM_END) take(buffer.data(), count);
  }
  inflateEnd(&stream);
  return state == Z_STREAM_END && total <= limit;
}

/// iCCP: name, 0, compression method 0, zlib stream.
std::string unpacked_profile(std::string_view body) {
  constexpr std::uint64_t kLargestProfile = 16u << 20;
  const std::size_t name_end = body.find('\0');
  if (name_end == std::string_view::npos || name_end + 2 > body.size()) return {};
  std::string profile;
  const bool whole = inflate_all(body.substr(name_end + 2), kLargestProfile,
                                 [&](const unsigned char* bytes, std::size_t n) {
                                   profile.append(reinterpret_cast<const char*>(bytes), n);
                                 });
  return whole ? profile : std::string();
}

void read_header(Chunks& chunks, std::string_view body, const std::string& file) {
  if (body.size() != 13) throw damaged(file, tr("its header has the wrong length"));
  chunks.width_px = big_endian(body, 0, 4);
  chunks.height_px = big_endian(body, 4, 4);
  chunks.bits = body[8];
  chunks.colour_type = body[9];
  chunks.interlaced = body[12] != 0;
  check_image_size(chunks.width_px, chunks.height_px, file);
}

void read_density(Chunks& chunks, std::string_view body) {
  if (body.size() != 9 || body[8] != 1) return;
  const double x = big_endian(body, 0, 4) * kMetresPerInch;
  const double y = big_endian(body, 4, 4) * kMetresPerInch;
  if (x > 1 && y > 1) {
    chunks.ppi_x = x;
    chunks.ppi_y = y;
  }
}

Chunks read_chunks(std::string_view bytes, const std::string& file) {
  Chunks chunks;
  bool ended = false;
  for (std::size_t at = kSignature.size(); !ended;) {
    if (at + 12 > bytes.size()) throw damaged(file, tr("it is cut short"));
    const std::size_t length = big_endian(bytes, at, 4);
    if (length > bytes.size() - at - 12) throw damaged(file, tr("it is cut short"));
    const std::string_view type = bytes.substr(at + 4, 4);
    const std::string_view body = bytes.substr(at + 8, length);
    const auto sum =
        crc32(0, reinterpret_cast<const Bytef*>(type.data()), static_cast<uInt>(length + 4));
    if (sum != big_endian(bytes, at + 8 + length, 4)) {
      throw damaged(file, tr("check sum of {} at byte {}", type, at));
    }
    if (at == kSignature.size() && type != "IHDR") throw damaged(file, tr("it has no header"));
    if (type == "IHDR") read_header(chunks, body, file);
    if (type == "PLTE") chunks.palette = body;
    if (type == "tRNS") chunks.transparent_colour = true;
    if (type == "iCCP") chunks.icc_profile = unpacked_profile(body);
    if (type == "pHYs") read_density(chunks, body);
    if (type == "IDAT") chunks.rows += body;
    ended = type == "IEND";
    at += 12 + length;
  }
  return chunks;
}

/// The rows of a plain image must unpack to exactly one filter byte (0..4) and the samples a row.
void check_rows(const Chunks& chunks, int samples, const std::string& file) {
  const std::uint64_t row_bits =
      std::uint64_t{chunks.width_px} * static_cast<unsigned>(samples * chunks.bits);
  const std::uint64_t row = 1 + (row_bits + 7) / 8;
  const std::uint64_t expected = row * chunks.height_px;
  std::uint64_t done = 0;
  bool filters_known = true;
  const bool whole =
      inflate_all(chunks.rows, expected, [&](const unsigned char* bytes, std::size_t count) {
        for (std::uint64_t i = (row - done % row) % row; i < count; i += row) {
          if (bytes[i] > 4) filters_known = false;
        }
        done += count;
      });
  if (!whole || done != expected || !filters_known) {
    throw damaged(file, tr("its pixels do not unpack"));
  }
}

/// libpng with its errors caught. Nothing with a destructor may live between setjmp and the calls
/// that can jump.
struct PngDecoder {
  png_structp png = nullptr;
  png_infop info = nullptr;
  std::string_view left;
  std::array<char, 200> message{};

  static void fail(png_structp png, png_const_charp text) {
    auto* self = static_cast<PngDecoder*>(png_get_error_ptr(png));
    std::strncpy(self->message.data(), text, self->message.size() - 1);
    png_longjmp(png, 1);
  }
  static void ignore(png_structp, png_const_charp) {}  // remarks on colour profiles and texts
  static void supply(png_structp png, png_bytep out, png_size_t count) {
    auto* self = static_cast<PngDecoder*>(png_get_io_ptr(png));
    if (count > self->left.size()) png_error(png, tr("it is cut short"));
    std::memcpy(out, self->left.data(), count);
    self->left.remove_prefix(count);
  }

  explicit PngDecoder(std::string_view bytes) : left(bytes) {
    png =
        png_create_read_struct(PNG_LIBPNG_VER_STRING, this, &PngDecoder::fail, &PngDecoder::ignore);
    info = png != nullptr ? png_create_info_struct(png) : nullptr;
    if (info == nullptr) {
      png_destroy_read_struct(&png, nullptr, nullptr);
      throw std::bad_alloc();
    }
    png_set_read_fn(png, this, &PngDecoder::supply);
  }
  PngDecoder(const PngDecoder&) = delete;
  PngDecoder& operator=(const PngDecoder&) = delete;
  ~PngDecoder() { png_destroy_read_struct(&png, &info, nullptr); }

  /// Reads the header and asks for whole samples: no palette, alpha or 1, 2, 4 bit.
  bool start() {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_read_info(png, info);
    png_set_expand(png);  // palette to RGB, 1, 2, 4 bit to 8, tRNS to alpha
    png_set_interlace_handling(png);
    png_read_update_info(png, info);
    return true;
  }

  bool read(png_bytepp rows) {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_read_image(png, rows);
    png_read_end(png, nullptr);
    return true;
  }
};

/// `value` at `alpha` (both of 0..largest) over white paper.
std::uint16_t over_white(std::uint32_t value, std::uint32_t alpha, std::uint32_t largest) {
  const std::uint64_t sum =
      std::uint64_t{value} * alpha + std::uint64_t{largest} * (largest - alpha) + largest / 2;
  return static_cast<std::uint16_t>(sum / largest);
}

}  // namespace

bool looks_like_png(std::string_view bytes) { return bytes.starts_with(kSignature); }

CodedImage parse_png(std::string_view bytes, const std::string& file) {
  Chunks chunks = read_chunks(bytes, file);
  CodedImage image;
  if (chunks.plain_rows()) {
    image.components = chunks.colour_type == 0 ? 1 : 3;
    image.bits = chunks.bits;
    if (chunks.has_palette()) image.palette = std::move(chunks.palette);
    check_rows(chunks, chunks.colour_type == 2 ? 3 : 1, file);
    image.data = std::move(chunks.rows);
  } else {
    image = parse_png(encode_png(decode_png(bytes, file)), file);
    image.recoded = true;
    return image;
  }
  image.file = file;
  image.width_px = static_cast<int>(chunks.width_px);
  image.height_px = static_cast<int>(chunks.height_px);
  image.icc_profile = matching_icc_profile(std::move(chunks.icc_profile), image.components);
  image.ppi_x = chunks.ppi_x;
  image.ppi_y = chunks.ppi_y;
  return image;
}

Raster decode_png(std::string_view bytes, const std::string& file) {
  Chunks chunks = read_chunks(bytes, file);  // sizes and check sums, before libpng unpacks anything
  PngDecoder decoder(bytes);
  if (!decoder.start()) throw damaged(file, decoder.message.data());

  Raster raster;
  raster.width_px = static_cast<int>(chunks.width_px);
  raster.height_px = static_cast<int>(chunks.height_px);
  raster.ppi_x = chunks.ppi_x;
  raster.ppi_y = chunks.ppi_y;
  const int stored = png_get_channels(decoder.png, decoder.info);
  const bool alpha = stored == 2 || stored == 4;
  raster.channels = alpha ? stored - 1 : stored;
  raster.bits = png_get_bit_depth(decoder.png, decoder.info);
  raster.icc_profile = matching_icc_profile(std::move(chunks.icc_profile), raster.channels);

  const std::size_t row_bytes = png_get_rowbytes(decoder.png, decoder.info);
  std::vector<unsigned char> pixels(row_bytes * chunks.height_px);
  std::vector<png_bytep> rows(chunks.height_px);
  for (std::size_t y = 0; y < rows.size(); ++y) rows[y] = pixels.data() + y * row_bytes;
  if (!decoder.read(rows.data())) throw damaged(file, decoder.message.data());

  const std::size_t count = std::size_t{chunks.width_px} * chunks.height_px;
  const auto channels = static_cast<std::size_t>(raster.channels);
  raster.samples.resize(count * channels);
  const auto sample = [&](std::size_t i) -> std::uint32_t {
    return raster.bits == 8 ? pixels[i] : pixels[2 * i] << 8 | pixels[2 * i + 1];
  };
  const auto largest = static_cast<std::uint32_t>(raster.largest());
  for (std::size_t p = 0; p < count; ++p) {
    const std::size_t from = p * static_cast<std::size_t>(stored);
    const std::uint32_t opacity = alpha ? sample(from + channels) : largest;
    for (std::size_t c = 0; c < channels; ++c) {
      raster.samples[p * channels + c] = over_white(sample(from + c), opacity, largest);
    }
  }
  return raster;
}

}  // namespace versolay
