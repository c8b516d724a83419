// PNG, row by row into the grey plane.
#include <png.h>

#include <array>
#include <cstdio>
#include <cstring>
#include <string_view>

#include "core/translation.h"
#include "images/exif.h"
#include "scan/decoders.h"
#include "scan/grey_rows.h"

namespace versolay::scan {
namespace {

/// Deflate shrinks to 1/1032 at best (zlib's technical notes): less data cannot fill the rows.
constexpr std::int64_t kBestDeflateRatio = 1032;
constexpr png_alloc_size_t kLargestChunk =
    16u << 20;  // of a profile or a text; a chunk may announce 2 GB

/// What libpng had to say, without allocation: it is written from inside its callbacks.
struct Complaint {
  std::array<char, 160> text{};
  void set(const char* message) { std::snprintf(text.data(), text.size(), "%s", message); }
};

void on_error(png_structp png, png_const_charp message) {
  static_cast<Complaint*>(png_get_error_ptr(png))->set(message);
  png_longjmp(png, 1);
}

// libpng warns of oddities (profiles, unknown chunks, bytes left over) that cost no pixel, and of
// trouble in the image data (check sums, pixels outside the palette) that does.
void on_warning(png_structp png, png_const_charp message) {
  const std::string_view text = message;
  // libpng goes on to take 2 GB for a chunk that announces as much.
  if (text.find("chunk data is too large") != text.npos) on_error(png, message);
  const bool left_over = text.find("Extra compressed data") != text.npos ||
                         text.find("Too much image data") != text.npos;
  if (text.starts_with("IDAT") && !left_over) on_error(png, message);
}

/// Owns libpng's state. libpng reports errors by longjmp, which must not pass over a C++
/// destructor: every call goes through run(), whose step has no object to destroy.
class PngReader {
 public:
  PngReader(std::FILE* file, const Place& place) : place_(place) {
    png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, &complaint_, on_error, on_warning);
    if (png_ != nullptr) info_ = png_create_info_struct(png_);
    if (info_ == nullptr) {
      png_destroy_read_struct(&png_, nullptr, nullptr);
      throw Error(place.text(), tr("there is not enough memory to read it"));
    }
    png_set_user_limits(png_, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // check_size() says it better
    png_set_chunk_malloc_max(png_, kLargestChunk);
    png_init_io(png_, file);
  }
  PngReader(const PngReader&) = delete;
  PngReader& operator=(const PngReader&) = delete;
  ~PngReader() { png_destroy_read_struct(&png_, &info_, nullptr); }

  /// step(png, info): libpng calls and values without destructors only.
  template <class Step>
  void run(Step step) {
    if (!completes(step)) throw damaged(place_, complaint_.text.data());
  }

 private:
  template <class Step>
  bool completes(const Step& step) {
    if (setjmp(png_jmpbuf(png_)) != 0) return false;
    step(png_, info_);
    return true;
  }

  const Place& place_;
  Complaint complaint_;
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

struct Header {
  png_uint_32 width = 0;
  png_uint_32 height = 0;
  int bit_depth = 0;
  int colour_type = 0;
  bool interlaced = false;
  std::size_t row_bytes = 0;  // as stored, before filtering
  int bits_per_pixel = 0;
  png_uint_32 x_per_metre = 0;
  png_uint_32 y_per_metre = 0;
  int orientation = 1;

  bool palette() const { return colour_type == PNG_COLOR_TYPE_PALETTE; }
};

Header read_header(png_structp png, png_infop info) {
  png_read_info(png, info);
  Header h;
  int interlace = 0;
  png_get_IHDR(png, info, &h.width, &h.height, &h.bit_depth, &h.colour_type, &interlace, nullptr,
               nullptr);
  h.interlaced = interlace != PNG_INTERLACE_NONE;
  h.row_bytes = png_get_rowbytes(png, info);
  h.bits_per_pixel = h.bit_depth * png_get_channels(png, info);
  int unit = PNG_RESOLUTION_UNKNOWN;
  png_uint_32 x = 0;
  png_uint_32 y = 0;
  if (png_get_pHYs(png, info, &x, &y, &unit) != 0 && unit == PNG_RESOLUTION_METER) {
    h.x_per_metre = x;
    h.y_per_metre = y;
  }
  png_uint_32 exif_size = 0;
  png_bytep exif = nullptr;
  if (png_get_eXIf_1(png, info, &exif_size, &exif) != 0) {
    h.orientation = read_exif({exif, exif_size}).orientation;
  }
  return h;
}

/// Grey of every palette entry, seen through to white paper where it is transparent.
GreyTable palette_table(png_structp png, png_infop info) {
  GreyTable table{};
  png_colorp colours = nullptr;
  int n_colours = 0;
  png_get_PLTE(png, info, &colours, &n_colours);
  png_bytep alphas = nullptr;
  int n_alphas = 0;
  png_get_tRNS(png, info, &alphas, &n_alphas, nullptr);
  for (int i = 0; i < n_colours; ++i) {
    const png_color& c = colours[i];
    const std::uint8_t grey = luma(c.red, c.green, c.blue);
    table[static_cast<std::size_t>(i)] = i < n_alphas ? over_white(grey, alphas[i]) : grey;
  }
  return table;
}

/// Asks libpng for bytes: palette indices, or 8-bit samples with or without alpha.
/// Returns the samples per pixel.
int set_transforms(png_structp png, png_infop info, const Header& h) {
  if (h.palette()) {
    png_set_packing(png);
  } else {
    if (h.bit_depth < 8) png_set_expand_gray_1_2_4_to_8(png);
    if (h.bit_depth == 16) png_set_scale_16(png);
    if (png_get_valid(png, info, PNG_INFO_tRNS) != 0) png_set_tRNS_to_alpha(png);
  }
  png_read_update_info(png, info);
  return png_get_channels(png, info);
}

struct RowConverter {
  int channels = 1;
  bool palette = false;
  GreyTable table{};

  bool in_place() const { return channels == 1; }
  void convert(const std::uint8_t* samples, std::uint8_t* grey, std::size_t n) const noexcept {
    if (channels == 2) grey_from_grey_alpha(samples, grey, n);
    if (channels == 3) grey_from_rgb(samples, grey, n);
    if (channels == 4) grey_from_rgba(samples, grey, n);
    if (palette) grey_by_table(grey, n, table);
  }
};

void read_rows(png_structp png, const RowConverter& rows, std::uint8_t* samples, GreyImage& plane) {
  const std::size_t width = static_cast<std::size_t>(plane.width);
  for (int y = 0; y < plane.height; ++y) {
    std::uint8_t* const grey = plane.row(y);
    png_read_row(png, rows.in_place() ? grey : samples, nullptr);
    rows.convert(samples, grey, width);
  }
}

/// The seven passes of an interlaced file, each a smaller image that is spread over the plane.
/// (libpng can do this itself, but only in a buffer of the whole image in colour.)
void read_interlaced(png_structp png, const RowConverter& rows, std::uint8_t* samples,
                     std::uint8_t* line, GreyImage& plane) {
  const auto width = static_cast<png_uint_32>(plane.width);
  const auto height = static_cast<png_uint_32>(plane.height);
  for (int pass = 0; pass < PNG_INTERLACE_ADAM7_PASSES; ++pass) {
    const png_uint_32 columns = PNG_PASS_COLS(width, pass);
    if (columns == 0) continue;
    for (png_uint_32 r = 0; r < PNG_PASS_ROWS(height, pass); ++r) {
      png_read_row(png, rows.in_place() ? line : samples, nullptr);
      rows.convert(samples, line, columns);
      std::uint8_t* const grey = plane.row(static_cast<int>(PNG_ROW_FROM_PASS_ROW(r, pass)));
      for (png_uint_32 c = 0; c < columns; ++c) grey[PNG_COL_FROM_PASS_COL(c, pass)] = line[c];
    }
  }
}

}  // namespace

Scan decode_png(const InputFile& file, const Place& place, const ScanLimits& limits, Hints hints) {
  PngReader reader(file.handle(), place);
  Header h;
  reader.run([&](png_structp png, png_infop info) { h = read_header(png, info); });
  check_size(place, h.width, h.height, h.bits_per_pixel, limits);
  const auto raw_bytes = static_cast<std::int64_t>(h.row_bytes) * h.height;
  if (raw_bytes / kBestDeflateRatio > file.size()) {
    throw damaged(place, "too short for its " + std::to_string(h.width) + " x " +
                             std::to_string(h.height) + " pixels");
  }

  RowConverter rows;
  rows.palette = h.palette();
  reader.run([&](png_structp png, png_infop info) {
    if (h.palette()) rows.table = palette_table(png, info);
    rows.channels = set_transforms(png, info, h);
  });

  Scan scan = scan_of(place);
  add_plane(scan, place, static_cast<int>(h.width), static_cast<int>(h.height), limits);
  std::vector<std::uint8_t> samples(rows.in_place() ? 0 : h.width * std::size_t{4});
  std::vector<std::uint8_t> line(h.interlaced ? h.width : 0);
  reader.run([&](png_structp png, png_infop) {
    if (h.interlaced) {
      read_interlaced(png, rows, samples.data(), line.data(), scan.grey);
    } else {
      read_rows(png, rows, samples.data(), scan.grey);
    }
    png_read_end(png, nullptr);  // a file without its end is incomplete, pixels or not
  });

  if (h.bit_depth == 1) warn_black_and_white(scan);
  if (hints == Hints::ignore) return scan;
  constexpr double kMetresPerInch = 0.0254;
  set_dpi(scan, h.x_per_metre * kMetresPerInch, h.y_per_metre * kMetresPerInch);
  undo_mirror(scan, h.orientation);
  return scan;
}

}  // namespace versolay::scan
