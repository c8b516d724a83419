#include "artwork/tiff_file.h"

#include <tiffio.h>

#include <array>
#include <cstdarg>
#include <cstdio>
#include <cstring>
#include <memory>
#include <vector>

#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "core/translation.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using namespace std::string_view_literals;

constexpr double kCmPerInch = 2.54;
constexpr std::size_t kMostPages = 1000;

/// A TIFF in memory, for reading or writing; the functions of libtiff's callbacks.
struct Memory {
  std::string bytes;
  std::uint64_t position = 0;

  static Memory& of(thandle_t handle) { return *static_cast<Memory*>(handle); }
  static tmsize_t read(thandle_t handle, void* buffer, tmsize_t size) {
    Memory& m = of(handle);
    const std::uint64_t left = m.position < m.bytes.size() ? m.bytes.size() - m.position : 0;
    const std::uint64_t count = std::min(left, static_cast<std::uint64_t>(size));
    std::memcpy(buffer, m.bytes.data() + m.position, count);
    m.position += count;
    return static_cast<tmsize_t>(count);
  }
  static tmsize_t write(thandle_t handle, void* buffer, tmsize_t size) {
    Memory& m = of(handle);
    const auto count = static_cast<std::uint64_t>(size);
    if (m.position + count > m.bytes.size()) m.bytes.resize(m.position + count);
    std::memcpy(m.bytes.data() + m.position, buffer, count);
    m.position += count;
    return size;
  }
  static toff_t seek(thandle_t handle, toff_t offset, int whence) {
    Memory& m = of(handle);
    m.position = whence == SEEK_SET   ? offset
                 : whence == SEEK_CUR ? m.position + offset
                                      : m.bytes.size() + offset;
    return m.position;
  }
  static int close(thandle_t) { return 0; }
  static toff_t length(thandle_t handle) { return of(handle).bytes.size(); }
};

/// An open TIFF whose complaints are kept instead of printed. While pixels are decoded, a warning
/// is about pixels that had to be invented, and counts as damage.
class Tiff {
 public:
  Tiff(std::string bytes, const char* mode, std::string file)
      : file_(std::move(file)), memory_{std::move(bytes)} {
    std::unique_ptr<TIFFOpenOptions, void (*)(TIFFOpenOptions*)> options(TIFFOpenOptionsAlloc(),
                                                                         TIFFOpenOptionsFree);
    TIFFOpenOptionsSetErrorHandlerExtR(options.get(), &Tiff::on_error, this);
    TIFFOpenOptionsSetWarningHandlerExtR(options.get(), &Tiff::on_warning, this);
    tiff_.reset(TIFFClientOpenExt("artwork", mode, &memory_, &Memory::read, &Memory::write,
                                  &Memory::seek, &Memory::close, &Memory::length, nullptr, nullptr,
                                  options.get()));
    if (!tiff_) fail();
  }
  Tiff(const Tiff&) = delete;
  Tiff& operator=(const Tiff&) = delete;

  TIFF* get() const { return tiff_.get(); }
  const std::string& file() const { return file_; }

  void expect_pixels() { strict_ = true; }
  void require(bool ok) const {
    if (!ok || complained_) fail();
  }
  std::string finished() {
    require(TIFFWriteDirectory(tiff_.get()) == 1);
    tiff_.reset();
    return std::move(memory_.bytes);
  }

  template <class T>
  T field(std::uint32_t tag, T otherwise) const {
    T value{};
    return TIFFGetFieldDefaulted(tiff_.get(), tag, &value) == 1 ? value : otherwise;
  }

 private:
  struct Closer {
    void operator()(TIFF* t) const { TIFFClose(t); }
  };

  [[noreturn]] void fail() const {
    const std::string how = complaint_[0] != 0 ? complaint_.data() : tr("it cannot be decoded");
    throw Error(file_, tr("is a damaged TIFF ({}). Export or copy it again", how));
  }
  static int on_error(TIFF*, void* self, const char*, const char* format, va_list list) {
    static_cast<Tiff*>(self)->complain(format, list);
    return 1;
  }
  static int on_warning(TIFF*, void* self, const char*, const char* format, va_list list) {
    auto* tiff = static_cast<Tiff*>(self);
    if (tiff->strict_) tiff->complain(format, list);
    return 1;
  }
  void complain(const char* format, va_list list) {
    if (!complained_) std::vsnprintf(complaint_.data(), complaint_.size(), format, list);
    complained_ = true;
  }

  std::string file_;
  Memory memory_;
  bool strict_ = false;
  bool complained_ = false;
  std::array<char, 200> complaint_{};
  std::unique_ptr<TIFF, Closer> tiff_;
};

/// What is needed of the tags.
struct Layout {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  int bits = 8;
  int samples = 1;  // of a pixel, extra ones included
  int channels = 0;
  bool alpha = false;
  bool alpha_multiplied = false;  // the colours were multiplied by it already
  bool white_is_zero = false;
  bool direct = false;  // rows can be read as they are
};

/// The kind of colours. Required by the standard; where it is missing, as many samples as there are
/// tell. TIFFGetFieldDefaulted would call it black on white whatever there is.
int colours_of(const Tiff& tiff, int samples) {
  std::uint16_t colours = 0;
  if (TIFFGetField(tiff.get(), TIFFTAG_PHOTOMETRIC, &colours) == 1) return colours;
  return samples >= 3 ? PHOTOMETRIC_RGB : PHOTOMETRIC_MINISBLACK;
}

Layout layout_of(const Tiff& tiff) {
  Layout l;
  l.width_px = tiff.field<std::uint32_t>(TIFFTAG_IMAGEWIDTH, 0);
  l.height_px = tiff.field<std::uint32_t>(TIFFTAG_IMAGELENGTH, 0);
  check_image_size(l.width_px, l.height_px, tiff.file());
  check_pixels_to_decode(static_cast<int>(l.width_px), static_cast<int>(l.height_px), tiff.file());
  l.bits = tiff.field<std::uint16_t>(TIFFTAG_BITSPERSAMPLE, 1);
  l.samples = tiff.field<std::uint16_t>(TIFFTAG_SAMPLESPERPIXEL, 1);
  const int colours = colours_of(tiff, l.samples);
  const int ink_set = tiff.field<std::uint16_t>(TIFFTAG_INKSET, INKSET_CMYK);
  l.channels = colours == PHOTOMETRIC_MINISBLACK || colours == PHOTOMETRIC_MINISWHITE ? 1
               : colours == PHOTOMETRIC_RGB                                           ? 3
               : colours == PHOTOMETRIC_SEPARATED && ink_set == INKSET_CMYK           ? 4
                                                                                      : 0;
  l.white_is_zero = colours == PHOTOMETRIC_MINISWHITE;
  std::uint16_t extra = 0;
  std::uint16_t* kinds = nullptr;
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_EXTRASAMPLES, &extra, &kinds);
  l.alpha = extra >= 1 && kinds != nullptr && kinds[0] != EXTRASAMPLE_UNSPECIFIED;
  l.alpha_multiplied = l.alpha && kinds[0] == EXTRASAMPLE_ASSOCALPHA;
  const bool unsigned_samples =
      tiff.field<std::uint16_t>(TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_UINT) == SAMPLEFORMAT_UINT;
  l.direct =
      l.channels > 0 && l.samples >= l.channels + (l.alpha ? 1 : 0) &&
      (l.bits == 8 || l.bits == 16) && unsigned_samples && TIFFIsTiled(tiff.get()) == 0 &&
      tiff.field<std::uint16_t>(TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG) == PLANARCONFIG_CONTIG;
  return l;
}

/// Where the directories of the pictures begin; previews and masks do not count. Walked once:
/// libtiff goes to directory number n by way of all before it.
std::vector<toff_t> picture_directories(const Tiff& tiff) {
  std::vector<toff_t> pictures;
  const toff_t first = TIFFCurrentDirOffset(tiff.get());
  do {
    const auto kind = tiff.field<std::uint32_t>(TIFFTAG_SUBFILETYPE, 0);
    if ((kind & (FILETYPE_REDUCEDIMAGE | FILETYPE_MASK)) != 0) continue;
    if (pictures.size() == kMostPages) {
      throw Error(tiff.file(),
                  tr("has more than {} pictures. Save them in several files", kMostPages));
    }
    pictures.push_back(TIFFCurrentDirOffset(tiff.get()));
  } while (TIFFReadDirectory(tiff.get()) == 1);
  tiff.require(true);
  if (pictures.empty()) pictures.push_back(first);
  return pictures;
}

void choose_page(const Tiff& tiff, int page) {
  const std::vector<toff_t> pictures = picture_directories(tiff);
  check_page(page, static_cast<int>(pictures.size()), tiff.file());
  const auto index = static_cast<std::size_t>(std::max(page, 1)) - 1;
  tiff.require(TIFFSetSubDirectory(tiff.get(), pictures[index]) == 1);
}

std::uint16_t over_white(std::uint32_t value, std::uint32_t alpha, std::uint32_t largest,
                         bool multiplied) {
  const std::uint64_t own =
      multiplied ? std::uint64_t{value} * largest : std::uint64_t{value} * alpha;
  const std::uint64_t sum = own + std::uint64_t{largest} * (largest - alpha) + largest / 2;
  return static_cast<std::uint16_t>(std::min<std::uint64_t>(sum / largest, largest));
}

void read_rows(Tiff& tiff, const Layout& l, Raster& raster) {
  std::vector<unsigned char> row(static_cast<std::size_t>(TIFFScanlineSize(tiff.get())));
  const auto stored = static_cast<std::size_t>(l.samples);
  const auto channels = static_cast<std::size_t>(l.channels);
  tiff.require(row.size() >= l.width_px * stored * static_cast<std::size_t>(l.bits / 8));
  const auto largest = static_cast<std::uint32_t>(raster.largest());
  std::size_t out = 0;
  for (std::uint32_t y = 0; y < l.height_px; ++y) {
    tiff.require(TIFFReadScanline(tiff.get(), row.data(), y, 0) == 1);
    const auto sample = [&](std::size_t i) -> std::uint32_t {
      if (l.bits == 8) return row[i];
      std::uint16_t value = 0;
      std::memcpy(&value, row.data() + 2 * i, 2);  // libtiff has put the bytes in native order
      return value;
    };
    for (std::size_t x = 0; x < l.width_px; ++x) {
      const std::uint32_t alpha = l.alpha ? sample(x * stored + channels) : largest;
      for (std::size_t c = 0; c < channels; ++c) {
        std::uint32_t value = sample(x * stored + c);
        if (l.white_is_zero) value = largest - value;
        raster.samples[out++] = l.alpha && channels < 4
                                    ? over_white(value, alpha, largest, l.alpha_multiplied)
                                    : static_cast<std::uint16_t>(value);
      }
    }
  }
}

void read_through_libtiff(Tiff& tiff, const Layout& l, Raster& raster) {
  std::array<char, 1024> why{};
  if (TIFFRGBAImageOK(tiff.get(), why.data()) != 1) {
    throw Error(tiff.file(),
                tr("is a kind of TIFF that cannot be read ({}). Save it as RGB with 8 or 16 bits",
                   why.data()));
  }
  std::vector<std::uint32_t> pixels(std::size_t{l.width_px} * l.height_px);
  // libtiff applies the flips of the orientation but not its quarter turns: as stored, then ours.
  const auto orientation = tiff.field<std::uint16_t>(TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT);
  tiff.require(TIFFReadRGBAImageOriented(tiff.get(), l.width_px, l.height_px, pixels.data(),
                                         orientation, 1) == 1);
  std::size_t out = 0;
  for (const std::uint32_t p : pixels) {
    for (const std::uint32_t value : {TIFFGetR(p), TIFFGetG(p), TIFFGetB(p)}) {
      raster.samples[out++] = over_white(value, TIFFGetA(p), 255, true);
    }
  }
}

void read_density(const Tiff& tiff, Raster& raster) {
  const auto unit = tiff.field<std::uint16_t>(TIFFTAG_RESOLUTIONUNIT, RESUNIT_INCH);
  const double per_inch = unit == RESUNIT_CENTIMETER ? kCmPerInch : 1.0;
  const double x = tiff.field<float>(TIFFTAG_XRESOLUTION, 0.0F) * per_inch;
  const double y = tiff.field<float>(TIFFTAG_YRESOLUTION, 0.0F) * per_inch;
  if (unit == RESUNIT_NONE || !(x > 1 && y > 1)) return;
  raster.ppi_x = x;
  raster.ppi_y = y;
}

std::string icc_profile_of(const Tiff& tiff, int channels) {
  std::uint32_t size = 0;
  void* bytes = nullptr;
  if (TIFFGetField(tiff.get(), TIFFTAG_ICCPROFILE, &size, &bytes) != 1) return {};
  return matching_icc_profile(std::string(static_cast<const char*>(bytes), size), channels);
}

}  // namespace

bool looks_like_tiff(std::string_view bytes) {
  for (const auto signature : {"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv}) {
    if (bytes.starts_with(signature)) return true;
  }
  return false;
}

int tiff_pages(std::string_view bytes, const std::string& file) {
  const Tiff tiff(std::string(bytes), "rm", file);
  return static_cast<int>(picture_directories(tiff).size());
}

Raster decode_tiff(std::string_view bytes, int page, const std::string& file) {
  Tiff tiff(std::string(bytes), "rm", file);
  choose_page(tiff, page);
  const Layout l = layout_of(tiff);
  Raster raster;
  raster.width_px = static_cast<int>(l.width_px);
  raster.height_px = static_cast<int>(l.height_px);
  raster.channels = l.direct ? l.channels : 3;
  raster.bits = l.direct ? l.bits : 8;
  raster.samples.resize(std::size_t{l.width_px} * l.height_px *
                        static_cast<std::size_t>(raster.channels));
  read_density(tiff, raster);
  raster.icc_profile = icc_profile_of(tiff, raster.channels);
  const auto orientation = tiff.field<std::uint16_t>(TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT);
  tiff.expect_pixels();
  l.direct ? read_rows(tiff, l, raster) : read_through_libtiff(tiff, l, raster);
  tiff.require(true);
  return oriented(std::move(raster), orientation);
}

CodedImage parse_tiff(std::string_view bytes, int page, const std::string& file) {
  CodedImage image = coded_again(decode_tiff(bytes, page, file), file);
  image.page = page;
  return image;
}

std::string encode_tiff(const Raster& raster) {
  Tiff tiff({}, "wl", "TIFF");
  TIFF* t = tiff.get();
  TIFFSetField(t, TIFFTAG_IMAGEWIDTH, raster.width_px);
  TIFFSetField(t, TIFFTAG_IMAGELENGTH, raster.height_px);
  TIFFSetField(t, TIFFTAG_BITSPERSAMPLE, raster.bits);
  TIFFSetField(t, TIFFTAG_SAMPLESPERPIXEL, raster.channels);
  TIFFSetField(t, TIFFTAG_PHOTOMETRIC,
               raster.channels == 1   ? PHOTOMETRIC_MINISBLACK
               : raster.channels == 3 ? PHOTOMETRIC_RGB
                                      : PHOTOMETRIC_SEPARATED);
  TIFFSetField(t, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
  TIFFSetField(t, TIFFTAG_COMPRESSION, COMPRESSION_ADOBE_DEFLATE);
  TIFFSetField(t, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
  TIFFSetField(t, TIFFTAG_ROWSPERSTRIP, TIFFDefaultStripSize(t, 0));
  if (raster.ppi_x && raster.ppi_y) {
    TIFFSetField(t, TIFFTAG_RESOLUTIONUNIT, RESUNIT_INCH);
    TIFFSetField(t, TIFFTAG_XRESOLUTION, *raster.ppi_x);
    TIFFSetField(t, TIFFTAG_YRESOLUTION, *raster.ppi_y);
  }
  if (!raster.icc_profile.empty()) {
    TIFFSetField(t, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(raster.icc_profile.size()),
                 raster.icc_profile.data());
  }
  const std::size_t row =
      static_cast<std::size_t>(raster.width_px) * static_cast<std::size_t>(raster.channels);
  std::vector<unsigned char> bytes(row * 2);
  for (int y = 0; y < raster.height_px; ++y) {
    for (std::size_t i = 0; i < row; ++i) {
      const std::uint16_t value = raster.samples[static_cast<std::size_t>(y) * row + i];
      if (raster.bits == 8) {
        bytes[i] = static_cast<unsigned char>(value);
      } else {
        std::memcpy(bytes.data() + 2 * i, &value, 2);
      }
    }
    tiff.require(TIFFWriteScanline(t, bytes.data(), static_cast<std::uint32_t>(y), 0) == 1);
  }
  return tiff.finished();
}

}  // namespace versolay
