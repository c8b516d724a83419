#include "artwork/png_file.h"

#include <png.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstring>
#include <optional>
#include <vector>

#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "core/translation.h"
#include "images/exif.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using namespace std::string_view_literals;
constexpr std::string_view kSignature = "\x89PNG\r\n\x1a\n"sv;
constexpr double kMetresPerInch = 0.0254;
constexpr png_alloc_size_t kLargestChunk = 16u << 20;  // of a profile or a text

Error damaged(const std::string& file, const std::string& how) {
  return Error(file, tr("is a damaged PNG ({}). Export or copy it again", how));
}

/// libpng with its errors caught. What it says of the picture is what holds: it is the one that
/// decodes. Nothing with a destructor may live between setjmp and the calls that can jump.
struct Decoder {
  png_structp png = nullptr;
  png_infop info = nullptr;
  std::string_view left;
  std::array<char, 200> message{};
  bool surplus = false;  // more pixels than announced

  static void fail(png_structp png, png_const_charp text) {
    auto* self = static_cast<Decoder*>(png_get_error_ptr(png));
    std::snprintf(self->message.data(), self->message.size(), "%s", text);
    png_longjmp(png, 1);
  }
  /// Remarks on profiles, texts and check sums of what is no pixel are no damage. Pixels beyond
  /// those that the header announces are: a viewer would unpack them all.
  static void remark(png_structp png, png_const_charp text) {
    // libpng goes on to take 2 GB for a chunk that announces as much.
    if (std::strstr(text, "chunk data is too large") != nullptr) fail(png, text);
    if (std::strstr(text, "Too much image data") != nullptr ||
        std::strstr(text, "Extra compressed data") != nullptr) {
      static_cast<Decoder*>(png_get_error_ptr(png))->surplus = true;
    }
  }
  static void supply(png_structp png, png_bytep out, png_size_t count) {
    auto* self = static_cast<Decoder*>(png_get_io_ptr(png));
    if (count > self->left.size()) png_error(png, tr("it is cut short"));
    std::memcpy(out, self->left.data(), count);
    self->left.remove_prefix(count);
  }

  explicit Decoder(std::string_view bytes) : left(bytes) {
    png = png_create_read_struct(PNG_LIBPNG_VER_STRING, this, &Decoder::fail, &Decoder::remark);
    info = png != nullptr ? png_create_info_struct(png) : nullptr;
    if (info == nullptr) {
      png_destroy_read_struct(&png, nullptr, nullptr);
      throw std::bad_alloc();
    }
    png_set_user_limits(png, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // check_image_size says it better
    png_set_chunk_malloc_max(png, kLargestChunk);
    constexpr png_byte kProfile[] = "iCCP";
    png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_ALWAYS, kProfile, 1);
    png_set_read_fn(png, this, &Decoder::supply);
  }
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;
  ~Decoder() { png_destroy_read_struct(&png, &info, nullptr); }

  bool read_header() {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_read_info(png, info);
    return true;
  }

  /// Asks for a byte a pixel of a palette.
  bool start_indices() {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_set_packing(png);
    png_read_update_info(png, info);
    return true;
  }

  /// Asks for whole samples: no palette, 1, 2 or 4 bit; transparency as a channel.
  bool start() {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_set_expand(png);
    png_set_interlace_handling(png);
    png_read_update_info(png, info);
    return true;
  }

  bool read_row(unsigned char* row) {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_read_row(png, row, nullptr);
    return true;
  }
  bool read_image(png_bytepp rows) {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_read_image(png, rows);
    return true;
  }
  bool finish() {
    if (setjmp(png_jmpbuf(png)) != 0) return false;
    png_read_end(png, nullptr);
    return true;
  }
};

/// What libpng says of a picture.
struct Header {
  int width_px = 0;
  int height_px = 0;
  int bits = 0;
  int colour_type = 0;
  bool interlaced = false;
  bool transparent_colour = false;  // tRNS
  std::string palette;              // PLTE: RGB triples
  std::string icc_profile;
  std::optional<double> ppi_x;
  std::optional<double> ppi_y;
  int orientation = 1;

  bool has_palette() const { return colour_type == PNG_COLOR_TYPE_PALETTE; }
  /// Rows that a PDF reads as they are: no alpha, no interlacing.
  bool plain_rows() const {
    const bool alpha = (colour_type & PNG_COLOR_MASK_ALPHA) != 0;
    return !alpha && !interlaced && !transparent_colour;
  }
  int samples_as_stored() const { return colour_type == PNG_COLOR_TYPE_RGB ? 3 : 1; }
};

/// iCCP: name, 0, compression method 0, zlib stream. libpng drops profiles that it finds fault
/// with; a printer's driver may be less strict.
std::string unpacked_profile(std::string_view body) {
  constexpr std::size_t kLargestProfile = 4u << 20;
  const std::size_t name_end = body.find('\0');
  if (name_end == std::string_view::npos || name_end + 2 > body.size()) return {};
  const std::string_view packed = body.substr(name_end + 2);
  std::string profile(std::min(kLargestProfile, 1032 * packed.size()), '\0');
  uLongf size = static_cast<uLongf>(profile.size());
  if (uncompress(reinterpret_cast<Bytef*>(profile.data()), &size,
                 reinterpret_cast<const Bytef*>(packed.data()),
                 static_cast<uLong>(packed.size())) != Z_OK) {
    return {};
  }
  profile.resize(size);
  return profile;
}

void read_profile(const Decoder& d, Header& h) {
  png_unknown_chunkp chunks = nullptr;
  const int count = png_get_unknown_chunks(d.png, d.info, &chunks);
  for (int i = 0; i < count; ++i) {
    if (std::memcmp(chunks[i].name, "iCCP", 4) != 0) continue;
    h.icc_profile =
        unpacked_profile({reinterpret_cast<const char*>(chunks[i].data), chunks[i].size});
  }
}

void read_density(const Decoder& d, Header& h) {
  png_uint_32 x = 0;
  png_uint_32 y = 0;
  int unit = PNG_RESOLUTION_UNKNOWN;
  if (png_get_pHYs(d.png, d.info, &x, &y, &unit) == 0 || unit != PNG_RESOLUTION_METER) return;
  if (x * kMetresPerInch <= 1 || y * kMetresPerInch <= 1) return;
  h.ppi_x = x * kMetresPerInch;
  h.ppi_y = y * kMetresPerInch;
}

void read_palette(const Decoder& d, Header& h) {
  png_colorp colours = nullptr;
  int count = 0;
  if (!h.has_palette() || png_get_PLTE(d.png, d.info, &colours, &count) == 0) return;
  for (int i = 0; i < count; ++i) {
    for (const png_byte part : {colours[i].red, colours[i].green, colours[i].blue}) {
      h.palette += static_cast<char>(part);
    }
  }
}

/// What stands before the pixels. A size that no sheet of cards needs is an Error.
Header read_header(Decoder& d, const std::string& file) {
  if (!d.read_header()) throw damaged(file, d.message.data());
  Header h;
  png_uint_32 width = 0;
  png_uint_32 height = 0;
  int interlacing = PNG_INTERLACE_NONE;
  png_get_IHDR(d.png, d.info, &width, &height, &h.bits, &h.colour_type, &interlacing, nullptr,
               nullptr);
  check_image_size(width, height, file);
  h.width_px = static_cast<int>(width);
  h.height_px = static_cast<int>(height);
  h.interlaced = interlacing != PNG_INTERLACE_NONE;
  h.transparent_colour = png_get_valid(d.png, d.info, PNG_INFO_tRNS) != 0;
  read_palette(d, h);
  read_profile(d, h);
  read_density(d, h);
  png_bytep exif = nullptr;
  png_uint_32 exif_size = 0;
  if (png_get_eXIf_1(d.png, d.info, &exif_size, &exif) != 0) {
    h.orientation = read_exif({exif, exif_size}).orientation;
  }
  return h;
}

/// The compressed rows: the bodies of all IDAT chunks, their check sums verified.
std::string rows_of(std::string_view bytes, const std::string& file) {
  std::string rows;
  for (std::size_t at = kSignature.size();;) {
    if (at + 12 > bytes.size()) throw damaged(file, tr("it is cut short"));
    const std::size_t length = big_endian(bytes, at, 4);
    if (length > bytes.size() - at - 12) throw damaged(file, tr("it is cut short"));
    const std::string_view type = bytes.substr(at + 4, 4);
    if (type == "IDAT") {
      const auto sum =
          crc32(0, reinterpret_cast<const Bytef*>(type.data()), static_cast<uInt>(length + 4));
      if (sum != big_endian(bytes, at + 8 + length, 4)) {
        throw damaged(file, tr("check sum of {} at byte {}", type, at));
      }
      rows += bytes.substr(at + 8, length);
    }
    if (type == "IEND") return rows;
    at += 12 + length;
  }
}

/// Reads all rows as they are stored, through libpng: they must be whole, and palette indices must
/// be colours of the palette.
void check_rows(Decoder& d, const Header& h, const std::string& file) {
  if (h.has_palette() && !d.start_indices()) throw damaged(file, d.message.data());
  std::vector<unsigned char> row(png_get_rowbytes(d.png, d.info));
  unsigned char last_colour = 0;
  for (int y = 0; y < h.height_px; ++y) {
    if (!d.read_row(row.data())) throw damaged(file, d.message.data());
    if (h.has_palette()) last_colour = std::max(last_colour, *std::ranges::max_element(row));
  }
  if (!d.finish()) throw damaged(file, d.message.data());
  if (d.surplus) throw damaged(file, tr("its pixels do not unpack"));
  const std::size_t colours = h.palette.size() / 3;
  if (h.has_palette() && last_colour >= colours) {
    throw damaged(file, tr("it uses colour {} of a palette of {}", last_colour + 1, colours));
  }
}

/// `value` at `alpha` (both of 0..largest) over white paper.
std::uint16_t over_white(std::uint32_t value, std::uint32_t alpha, std::uint32_t largest) {
  const std::uint64_t sum =
      std::uint64_t{value} * alpha + std::uint64_t{largest} * (largest - alpha) + largest / 2;
  return static_cast<std::uint16_t>(sum / largest);
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

void decode_rows(Decoder& d, bool interlaced, const RowOverWhite& rows, Raster& raster,
                 const std::string& file) {
  const std::size_t row_bytes = png_get_rowbytes(d.png, d.info);
  const auto height = static_cast<std::size_t>(raster.height_px);
  const std::size_t row_samples = raster.samples.size() / height;
  if (!interlaced) {
    std::vector<unsigned char> row(row_bytes);
    for (std::size_t y = 0; y < height; ++y) {
      if (!d.read_row(row.data())) throw damaged(file, d.message.data());
      rows.convert(row.data(), raster.samples.data() + y * row_samples);
    }
    return;
  }
  std::vector<unsigned char> pixels(row_bytes * height);
  std::vector<png_bytep> places(height);
  for (std::size_t y = 0; y < height; ++y) places[y] = pixels.data() + y * row_bytes;
  if (!d.read_image(places.data())) throw damaged(file, d.message.data());
  for (std::size_t y = 0; y < height; ++y) {
    rows.convert(places[y], raster.samples.data() + y * row_samples);
  }
}

Raster decode(Decoder& d, Header header, const std::string& file) {
  check_pixels_to_decode(header.width_px, header.height_px, file);
  if (!d.start()) throw damaged(file, d.message.data());
  Raster raster;
  raster.width_px = header.width_px;
  raster.height_px = header.height_px;
  raster.ppi_x = header.ppi_x;
  raster.ppi_y = header.ppi_y;
  const int stored = png_get_channels(d.png, d.info);
  raster.channels = stored == 2 || stored == 4 ? stored - 1 : stored;
  raster.bits = png_get_bit_depth(d.png, d.info);
  raster.icc_profile = matching_icc_profile(std::move(header.icc_profile), raster.channels);
  raster.samples.resize(static_cast<std::size_t>(raster.width_px) *
                        static_cast<std::size_t>(raster.height_px) *
                        static_cast<std::size_t>(raster.channels));
  decode_rows(d, header.interlaced, RowOverWhite(stored, raster), raster, file);
  if (!d.finish()) throw damaged(file, d.message.data());
  return oriented(std::move(raster), header.orientation);
}

}  // namespace

bool looks_like_png(std::string_view bytes) { return bytes.starts_with(kSignature); }

CodedImage parse_png(std::string_view bytes, const std::string& file) {
  Decoder decoder(bytes);
  Header header = read_header(decoder, file);
  if (!header.plain_rows()) return coded_again(decode(decoder, std::move(header), file), file);
  check_rows(decoder, header, file);
  CodedImage image;
  image.file = file;
  image.width_px = header.width_px;
  image.height_px = header.height_px;
  image.components = header.colour_type == PNG_COLOR_TYPE_GRAY ? 1 : 3;
  image.bits = header.bits;
  image.palette = std::move(header.palette);
  image.orientation = header.orientation;
  image.icc_profile = matching_icc_profile(std::move(header.icc_profile), image.components);
  image.ppi_x = header.ppi_x;
  image.ppi_y = header.ppi_y;
  image.data = rows_of(bytes, file);
  return image;
}

Raster decode_png(std::string_view bytes, const std::string& file) {
  Decoder decoder(bytes);
  Header header = read_header(decoder, file);
  return decode(decoder, std::move(header), file);
}

}  // namespace versolay
