#include "artwork/tiff_file.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <memory>
#include <new>
#include <vector>

#include "artwork/findings.h"
#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "core/expect.h"
#include "images/tiff_reader.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr std::size_t kMostPages = 1000;

/// How the pixels of a directory come.
struct Pixels {
  int channels = 0;       // of the colours
  bool direct = false;    // rows can be read as they are
  bool inverted = false;  // white is 0
};

Pixels pixels_of(const images::TiffReader& tiff, const images::TiffLayout& l) {
  const auto ink_set = tiff.field<std::uint16_t>(TIFFTAG_INKSET, INKSET_CMYK);
  Pixels p;
  p.inverted = l.photometric == PHOTOMETRIC_MINISWHITE;
  p.channels = l.photometric == PHOTOMETRIC_MINISBLACK || p.inverted              ? 1
               : l.photometric == PHOTOMETRIC_RGB                                 ? 3
               : l.photometric == PHOTOMETRIC_SEPARATED && ink_set == INKSET_CMYK ? 4
                                                                                  : 0;
  p.direct = p.channels > 0 && l.samples >= p.channels + (l.alpha ? 1 : 0) &&
             (l.bits == 8 || l.bits == 16) && l.sample_format == SAMPLEFORMAT_UINT && !l.tiled &&
             !l.planar;
  return p;
}

std::vector<toff_t> pictures_of(images::TiffReader& tiff, const std::string& file) {
  const toff_t first = TIFFCurrentDirOffset(tiff.get());
  try {
    std::vector<toff_t> pictures = tiff.picture_directories(kMostPages);
    if (pictures.empty()) pictures.push_back(first);
    return pictures;
  } catch (const images::PictureError& fault) {
    if (fault.fault() != images::PictureFault::too_large) throw;
    throw Error(file, findings::too_many_pictures(static_cast<std::int64_t>(kMostPages)));
  }
}

void choose_page(images::TiffReader& tiff, int page, const std::string& file) {
  const std::vector<toff_t> pictures = pictures_of(tiff, file);
  check_page(page, static_cast<int>(pictures.size()), file);
  const auto index = static_cast<std::size_t>(std::max(page, 1)) - 1;
  tiff.require(TIFFSetSubDirectory(tiff.get(), pictures[index]) == 1);
}

void read_rows(const images::TiffReader& tiff, const images::TiffLayout& l, const Pixels& p,
               Raster& raster) {
  std::vector<unsigned char> row(static_cast<std::size_t>(TIFFScanlineSize(tiff.get())));
  const auto stored = static_cast<std::size_t>(l.samples);
  const auto channels = static_cast<std::size_t>(p.channels);
  tiff.require(row.size() >= l.width_px * stored * (l.bits / 8u));
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
        if (p.inverted) value = largest - value;
        raster.samples[out++] = l.alpha && channels < 4
                                    ? over_white(value, alpha, largest, l.premultiplied)
                                    : static_cast<std::uint16_t>(value);
      }
    }
  }
}

void read_through_libtiff(const images::TiffReader& tiff, const images::TiffLayout& l,
                          Raster& raster) {
  std::array<char, 1024> why{};
  if (TIFFRGBAImageOK(tiff.get(), why.data()) != 1) {
    throw images::PictureError(images::PictureFault::unsupported, why.data());
  }
  std::vector<std::uint32_t> pixels(std::size_t{l.width_px} * l.height_px);
  // libtiff applies the flips of the orientation but not its quarter turns: as stored, then ours.
  tiff.require(TIFFReadRGBAImageOriented(tiff.get(), l.width_px, l.height_px, pixels.data(),
                                         l.orientation, 1) == 1);
  std::size_t out = 0;
  for (const std::uint32_t p : pixels) {
    for (const std::uint32_t value : {TIFFGetR(p), TIFFGetG(p), TIFFGetB(p)}) {
      raster.samples[out++] = over_white(value, TIFFGetA(p), 255, true);
    }
  }
}

std::string icc_profile_of(const images::TiffReader& tiff, int channels) {
  std::uint32_t size = 0;
  void* bytes = nullptr;
  if (TIFFGetField(tiff.get(), TIFFTAG_ICCPROFILE, &size, &bytes) != 1) return {};
  return matching_icc_profile(std::string(static_cast<const char*>(bytes), size), channels);
}

Raster decode(images::TiffReader& tiff, const std::string& file) {
  const images::TiffLayout l = layout_of(tiff);
  check_image_size(l.width_px, l.height_px, file);
  check_pixels_to_decode(static_cast<int>(l.width_px), static_cast<int>(l.height_px), file);
  const Pixels p = pixels_of(tiff, l);
  Raster raster;
  raster.width_px = static_cast<int>(l.width_px);
  raster.height_px = static_cast<int>(l.height_px);
  raster.channels = p.direct ? p.channels : 3;
  raster.bits = p.direct ? l.bits : 8;
  raster.samples.resize(std::size_t{l.width_px} * l.height_px *
                        static_cast<std::size_t>(raster.channels));
  if (l.ppi_x > 1 && l.ppi_y > 1) {
    raster.ppi_x = l.ppi_x;
    raster.ppi_y = l.ppi_y;
  }
  raster.icc_profile = icc_profile_of(tiff, raster.channels);
  tiff.expect_pixels();
  p.direct ? read_rows(tiff, l, p, raster) : read_through_libtiff(tiff, l, raster);
  tiff.check();
  const bool known = l.orientation >= 1 && l.orientation <= 8;
  return oriented(std::move(raster), known ? l.orientation : 1);
}

/// A TIFF that is being written into memory; the functions of libtiff's callbacks.
struct Sink {
  std::string bytes;
  std::uint64_t position = 0;

  static Sink& of(thandle_t handle) { return *static_cast<Sink*>(handle); }
  static tmsize_t read(thandle_t handle, void* buffer, tmsize_t size) {
    Sink& s = of(handle);
    const std::uint64_t left = s.position < s.bytes.size() ? s.bytes.size() - s.position : 0;
    const std::uint64_t count = std::min(left, static_cast<std::uint64_t>(size));
    std::memcpy(buffer, s.bytes.data() + s.position, count);
    s.position += count;
    return static_cast<tmsize_t>(count);
  }
  static tmsize_t write(thandle_t handle, void* buffer, tmsize_t size) {
    Sink& s = of(handle);
    const auto count = static_cast<std::uint64_t>(size);
    if (s.position + count > s.bytes.size()) s.bytes.resize(s.position + count);
    std::memcpy(s.bytes.data() + s.position, buffer, count);
    s.position += count;
    return size;
  }
  static toff_t seek(thandle_t handle, toff_t offset, int whence) {
    Sink& s = of(handle);
    s.position = whence == SEEK_SET   ? offset
                 : whence == SEEK_CUR ? s.position + offset
                                      : s.bytes.size() + offset;
    return s.position;
  }
  static int close(thandle_t) { return 0; }
  static toff_t length(thandle_t handle) { return of(handle).bytes.size(); }
};

}  // namespace

int tiff_pages(std::string_view bytes, const std::string& file) {
  try {
    images::TiffReader tiff(bytes);
    return static_cast<int>(pictures_of(tiff, file).size());
  } catch (const images::PictureError& fault) {
    throw in_words(fault, "TIFF", file);
  }
}

Raster decode_tiff(std::string_view bytes, int page, const std::string& file) {
  try {
    images::TiffReader tiff(bytes);
    choose_page(tiff, page, file);
    return decode(tiff, file);
  } catch (const images::PictureError& fault) {
    throw in_words(fault, "TIFF", file);
  }
}

CodedImage parse_tiff(std::string_view bytes, int page, const std::string& file) {
  CodedImage image = coded_again(decode_tiff(bytes, page, file), file);
  image.page = page;
  return image;
}

std::string encode_tiff(const Raster& raster) {
  Sink sink;
  std::unique_ptr<TIFF, void (*)(TIFF*)> tiff(
      TIFFClientOpen("TIFF", "wl", &sink, &Sink::read, &Sink::write, &Sink::seek, &Sink::close,
                     &Sink::length, nullptr, nullptr),
      TIFFClose);
  if (!tiff) throw std::bad_alloc();
  TIFF* const t = tiff.get();
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
    expect(TIFFWriteScanline(t, bytes.data(), static_cast<std::uint32_t>(y), 0) == 1);
  }
  expect(TIFFWriteDirectory(t) == 1);
  tiff.reset();  // what it still holds is written now
  return std::move(sink.bytes);
}

}  // namespace versolay
