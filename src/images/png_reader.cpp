#include "images/png_reader.h"

#include <zlib.h>

#include <algorithm>
#include <cstring>
#include <new>

#include "images/exif.h"

namespace versolay::images {
namespace {

using namespace std::string_view_literals;

constexpr std::string_view kSignature = "\x89PNG\r\n\x1a\n"sv;
constexpr png_alloc_size_t kLargestChunk = 16u << 20;  // of a profile or a text
constexpr png_uint_32 kImageData = 0x49444154;         // IDAT
constexpr double kMetresPerInch = 0.0254;

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

PngHeader header_of(png_structp png, png_infop info) {
  PngHeader h;
  int interlacing = PNG_INTERLACE_NONE;
  png_get_IHDR(png, info, &h.width_px, &h.height_px, &h.bits, &h.colour_type, &interlacing, nullptr,
               nullptr);
  h.interlaced = interlacing != PNG_INTERLACE_NONE;
  h.channels = png_get_channels(png, info);
  h.row_bytes = png_get_rowbytes(png, info);
  h.transparent_colour = png_get_valid(png, info, PNG_INFO_tRNS) != 0;
  png_uint_32 x = 0;
  png_uint_32 y = 0;
  int unit = PNG_RESOLUTION_UNKNOWN;
  if (png_get_pHYs(png, info, &x, &y, &unit) != 0 && unit == PNG_RESOLUTION_METER) {
    h.ppi_x = x * kMetresPerInch;
    h.ppi_y = y * kMetresPerInch;
  }
  png_bytep exif = nullptr;
  png_uint_32 exif_size = 0;
  if (png_get_eXIf_1(png, info, &exif_size, &exif) != 0) {
    h.orientation = read_exif({exif, exif_size}).orientation;
  }
  return h;
}

}  // namespace

bool looks_like_png(std::string_view bytes) { return bytes.starts_with(kSignature); }

PngReader::PngReader(std::FILE* file) {
  create();
  png_init_io(png_, file);
  read_header();
}

PngReader::PngReader(std::string_view bytes) : left_(bytes) {
  create();
  png_set_read_fn(png_, this, &PngReader::supply);
  read_header();
}

void PngReader::create() {
  png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, this, &PngReader::on_error,
                                &PngReader::on_warning);
  if (png_ != nullptr) info_ = png_create_info_struct(png_);
  if (info_ == nullptr) {
    png_destroy_read_struct(&png_, nullptr, nullptr);
    throw std::bad_alloc();
  }
  png_set_user_limits(png_, PNG_UINT_31_MAX, PNG_UINT_31_MAX);  // the caller says it better
  png_set_chunk_malloc_max(png_, kLargestChunk);
  // The profile is unpacked here; the others must not change samples laid over white.
  constexpr png_byte kUnused[] = "iCCP\0gAMA\0sRGB\0cHRM";
  png_set_keep_unknown_chunks(png_, PNG_HANDLE_CHUNK_ALWAYS, kUnused, 4);
  // libpng looks for colours that the palette lacks only where it transforms rows: an empty
  // transform.
  png_set_read_user_transform_fn(png_, nullptr);
}

void PngReader::read_header() {
  const bool read = completes([](png_structp png, png_infop info) { png_read_info(png, info); });
  if (!read) {  // no destructor runs for an object that was not made
    png_destroy_read_struct(&png_, &info_, nullptr);
    damaged(complaint_.data());
  }
  header_ = header_of(png_, info_);
}

std::string PngReader::palette() const {
  png_colorp colours = nullptr;
  int count = 0;
  std::string triples;
  if (!header_.has_palette() || png_get_PLTE(png_, info_, &colours, &count) == 0) return triples;
  for (int i = 0; i < count; ++i) {
    for (const png_byte part : {colours[i].red, colours[i].green, colours[i].blue}) {
      triples += static_cast<char>(part);
    }
  }
  return triples;
}

std::string PngReader::icc_profile() const {
  png_unknown_chunkp chunks = nullptr;
  const int count = png_get_unknown_chunks(png_, info_, &chunks);
  for (int i = 0; i < count; ++i) {
    if (std::memcmp(chunks[i].name, "iCCP", 4) == 0) {
      return unpacked_profile({reinterpret_cast<const char*>(chunks[i].data), chunks[i].size});
    }
  }
  return {};
}

void PngReader::on_error(png_structp png, png_const_charp message) {
  auto* self = static_cast<PngReader*>(png_get_error_ptr(png));
  std::snprintf(self->complaint_.data(), self->complaint_.size(), "%s", message);
  png_longjmp(png, 1);
}

void PngReader::on_warning(png_structp png, png_const_charp message) {
  const std::string_view text = message;
  // libpng goes on to take 2 GB for a chunk that announces as much.
  if (text.find("chunk data is too large") != text.npos) on_error(png, message);
  if (text.find("Extra compressed data") != text.npos ||
      text.find("Too much image data") != text.npos) {
    static_cast<PngReader*>(png_get_error_ptr(png))->surplus_ = true;
  } else if (text.starts_with("IDAT")) {
    on_error(png, message);
  }
}

void PngReader::supply(png_structp png, png_bytep out, png_size_t count) {
  auto* self = static_cast<PngReader*>(png_get_io_ptr(png));
  if (count > self->left_.size()) png_error(png, "it is cut short");
  std::memcpy(out, self->left_.data(), count);
  const bool body = (png_get_io_state(png) & PNG_IO_MASK_LOC) == PNG_IO_CHUNK_DATA;
  if (self->keeps_image_data_ && body && png_get_io_chunk_type(png) == kImageData) {
    self->image_data_.append(reinterpret_cast<const char*>(out), count);
  }
  self->left_.remove_prefix(count);
}

}  // namespace versolay::images
