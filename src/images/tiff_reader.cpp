#include "images/tiff_reader.h"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <new>

namespace versolay::images {
namespace {

using namespace std::string_view_literals;

// No sound file needs a larger block than this: strips and tiles are checked before.
constexpr tmsize_t kLargestAllocation = tmsize_t{1} << 29;

std::uint16_t usual_photometric(const TiffLayout& layout) {
  const std::uint16_t c = layout.compression;
  const bool fax = c == COMPRESSION_CCITTRLE || c == COMPRESSION_CCITTFAX3 ||
                   c == COMPRESSION_CCITTFAX4 || c == COMPRESSION_CCITTRLEW;
  if (fax) return PHOTOMETRIC_MINISWHITE;
  return layout.samples >= 3 ? PHOTOMETRIC_RGB : PHOTOMETRIC_MINISBLACK;
}

void read_alpha(TIFF* tiff, TiffLayout& layout) {
  std::uint16_t n = 0;
  std::uint16_t* kinds = nullptr;
  TIFFGetFieldDefaulted(tiff, TIFFTAG_EXTRASAMPLES, &n, &kinds);
  if (n == 0 || kinds == nullptr) return;
  layout.premultiplied = kinds[0] == EXTRASAMPLE_ASSOCALPHA;
  layout.alpha = layout.premultiplied || kinds[0] == EXTRASAMPLE_UNASSALPHA;
}

void read_resolution(const TiffReader& tiff, TiffLayout& layout) {
  const auto unit = tiff.field<std::uint16_t>(TIFFTAG_RESOLUTIONUNIT, RESUNIT_INCH);
  if (unit == RESUNIT_NONE) return;
  const double per_inch = unit == RESUNIT_CENTIMETER ? 2.54 : 1.0;
  layout.ppi_x = tiff.field<float>(TIFFTAG_XRESOLUTION) * per_inch;
  layout.ppi_y = tiff.field<float>(TIFFTAG_YRESOLUTION) * per_inch;
}

}  // namespace

bool looks_like_tiff(std::string_view bytes) {
  const std::array starts = {"II\x2a\0"sv, "MM\0\x2a"sv, "II\x2b\0"sv, "MM\0\x2b"sv};
  return std::any_of(starts.begin(), starts.end(),
                     [&](std::string_view start) { return bytes.starts_with(start); });
}

TiffReader::TiffReader(int descriptor, std::int64_t size, TiffAccess access)
    : stream_{descriptor, nullptr, size, 0, nullptr} {
  // D: strip positions when they are needed; m: no mapping.
  open(access == TiffAccess::map ? "rD" : "rDm");
}

TiffReader::TiffReader(std::string_view bytes)
    : stream_{-1, bytes.data(), static_cast<std::int64_t>(bytes.size()), 0, nullptr} {
  open("rDm");
}

void TiffReader::open(const char* mode) {
  const std::unique_ptr<TIFFOpenOptions, void (*)(TIFFOpenOptions*)> options(TIFFOpenOptionsAlloc(),
                                                                             TIFFOpenOptionsFree);
  if (!options) throw std::bad_alloc();
  TIFFOpenOptionsSetMaxSingleMemAlloc(options.get(), kLargestAllocation);
  TIFFOpenOptionsSetErrorHandlerExtR(options.get(), on_error, this);
  TIFFOpenOptionsSetWarningHandlerExtR(options.get(), on_warning, this);
  tiff_.reset(TIFFClientOpenExt("picture", mode, &stream_, Stream::read, Stream::write,
                                Stream::seek, Stream::close, Stream::length, Stream::map,
                                Stream::unmap, options.get()));
  if (!tiff_) fail("it does not hold together as a TIFF file");
}

std::vector<toff_t> TiffReader::picture_directories(std::size_t most) {
  std::vector<toff_t> pictures;
  do {
    check();
    const auto kind = field<std::uint32_t>(TIFFTAG_SUBFILETYPE);
    if ((kind & (FILETYPE_REDUCEDIMAGE | FILETYPE_MASK)) != 0) continue;
    pictures.push_back(TIFFCurrentDirOffset(get()));
  } while (pictures.size() <= most && TIFFReadDirectory(get()) == 1);
  check();  // a chain of pages that breaks off is a file that was cut
  return pictures;
}

tmsize_t TiffReader::Stream::read(thandle_t handle, void* buffer, tmsize_t size) {
  Stream& s = of(handle);
  if (s.bytes != nullptr) {
    const std::int64_t left = std::max<std::int64_t>(0, s.size - s.position);
    const tmsize_t n = std::min<std::int64_t>(size, s.position < 0 ? 0 : left);
    if (n > 0) std::memcpy(buffer, s.bytes + s.position, static_cast<std::size_t>(n));
    s.position += n;
    return n;
  }
  tmsize_t done = 0;
  while (done < size) {
    const ssize_t n = pread(s.descriptor, static_cast<char*>(buffer) + done,
                            static_cast<std::size_t>(size - done), s.position);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;
    done += n;
    s.position += n;
  }
  return done;
}

toff_t TiffReader::Stream::seek(thandle_t handle, toff_t offset, int whence) {
  Stream& s = of(handle);
  const std::int64_t from = whence == SEEK_SET ? 0 : whence == SEEK_CUR ? s.position : s.size;
  s.position = from + static_cast<std::int64_t>(offset);
  return static_cast<toff_t>(s.position);
}

int TiffReader::Stream::map(thandle_t handle, void** base, toff_t* size) {
  Stream& s = of(handle);
  if (s.bytes != nullptr) return 0;
  void* start =
      mmap(nullptr, static_cast<std::size_t>(s.size), PROT_READ, MAP_PRIVATE, s.descriptor, 0);
  if (start == MAP_FAILED) return 0;
  *base = s.mapped = start;
  *size = static_cast<toff_t>(s.size);
  return 1;
}

void TiffReader::Stream::unmap(thandle_t handle, void* base, toff_t size) {
  munmap(base, static_cast<std::size_t>(size));
  of(handle).mapped = nullptr;
}

int TiffReader::on_error(TIFF*, void* self, const char*, const char* format, va_list list) {
  auto* reader = static_cast<TiffReader*>(self);
  if (reader->complained_) return 1;  // the first complaint is the cause
  reader->complained_ = true;
  std::vsnprintf(reader->complaint_.data(), reader->complaint_.size(), format, list);
  return 1;  // done with: nothing is printed
}

int TiffReader::on_warning(TIFF* tiff, void* self, const char* module, const char* format,
                           va_list list) {
  std::array<char, 200> text{};
  va_list again;
  va_copy(again, list);
  std::vsnprintf(text.data(), text.size(), format, again);
  va_end(again);
  const std::string_view warning(text.data());
  const auto is_about = [&](const char* what) { return warning.find(what) != warning.npos; };
  const bool old_writer = is_about("Old-style LZW codes") || is_about("8-bit colormap");
  // Without its palette, libtiff takes the indices for greys.
  const bool lost_palette = is_about("\"ColorMap\"");
  if (lost_palette || (static_cast<TiffReader*>(self)->strict_ && !old_writer)) {
    on_error(tiff, self, module, format, list);
  }
  return 1;
}

void TiffReader::fail(const std::string& otherwise) const {
  damaged(complained_ ? complaint_.data() : otherwise);
}

void TiffReader::release_mapped() const {
  if (stream_.mapped == nullptr) return;
  madvise(stream_.mapped, static_cast<std::size_t>(stream_.size), MADV_DONTNEED);
}

TiffLayout layout_of(const TiffReader& tiff) {
  TIFF* const t = tiff.get();
  TiffLayout layout;
  TIFFGetField(t, TIFFTAG_IMAGEWIDTH, &layout.width_px);
  TIFFGetField(t, TIFFTAG_IMAGELENGTH, &layout.height_px);
  layout.bits = tiff.field<std::uint16_t>(TIFFTAG_BITSPERSAMPLE, 1);
  layout.samples = tiff.field<std::uint16_t>(TIFFTAG_SAMPLESPERPIXEL, 1);
  layout.compression = tiff.field<std::uint16_t>(TIFFTAG_COMPRESSION, COMPRESSION_NONE);
  layout.sample_format = tiff.field<std::uint16_t>(TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_UINT);
  layout.orientation = tiff.field<std::uint16_t>(TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT);
  layout.tiled = TIFFIsTiled(t) != 0;
  layout.planar = layout.samples > 1 &&
                  tiff.field<std::uint16_t>(TIFFTAG_PLANARCONFIG) == PLANARCONFIG_SEPARATE;
  if (TIFFGetField(t, TIFFTAG_PHOTOMETRIC, &layout.photometric) == 0) {
    layout.photometric = usual_photometric(layout);
  }
  read_alpha(t, layout);
  read_resolution(tiff, layout);
  return layout;
}

}  // namespace versolay::images
