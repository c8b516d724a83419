#include <algorithm>
#include <array>
#include <cstring>
#include <vector>

#include "artwork/findings.h"
#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "artwork/picture_decoders.h"
#include "images/tiff_rows.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr std::size_t kMostPages = 1000;
constexpr std::uint64_t kLargestBlock = 150u << 20;  // one plane of the largest picture

/// Are these grey, RGB or CMYK samples as a raster has them, whichever way the file divides them?
bool is_direct(const images::TiffReader& tiff, const images::TiffLayout& l) {
  const bool colours = l.is_grey() || l.is_colour() ||
                       (l.photometric == PHOTOMETRIC_SEPARATED &&
                        tiff.field<std::uint16_t>(TIFFTAG_INKSET, INKSET_CMYK) == INKSET_CMYK);
  return colours && l.samples >= l.samples_used() && (l.bits == 8 || l.bits == 16) &&
         l.sample_format != SAMPLEFORMAT_IEEEFP;
}

std::vector<toff_t> pictures_of(images::TiffReader& tiff, const std::string& file) {
  const toff_t first = TIFFCurrentDirOffset(tiff.get());
  std::vector<toff_t> pictures = tiff.picture_directories(kMostPages);
  if (pictures.size() > kMostPages) {
    throw Error(file, findings::too_many_pictures(static_cast<std::int64_t>(kMostPages)));
  }
  if (pictures.empty()) pictures.push_back(first);
  return pictures;
}

void choose_page(images::TiffReader& tiff, int page, const std::string& file) {
  const std::vector<toff_t> pictures = pictures_of(tiff, file);
  check_page(page, static_cast<int>(pictures.size()), file);
  const auto index = static_cast<std::size_t>(std::max(page, 1)) - 1;
  tiff.require(TIFFSetSubDirectory(tiff.get(), pictures[index]) == 1);
}

void read_samples(const images::TiffReader& tiff, const images::TiffLayout& l, Raster& raster) {
  const bool inverted = l.photometric == PHOTOMETRIC_MINISWHITE;
  const bool transparent = l.alpha && l.colours() < 4;
  const auto largest = static_cast<std::uint32_t>(raster.largest());
  images::read_rows(tiff, l, kLargestBlock, [&](const images::TiffRun& run) {
    const auto sample = [&](std::size_t i) -> std::uint32_t {
      if (l.bits == 8) return run.samples[i];
      std::uint16_t value = 0;
      std::memcpy(&value, run.samples + 2 * i, 2);
      return value;
    };
    std::uint16_t* out = &raster.at(static_cast<int>(run.x), static_cast<int>(run.y), 0);
    for (std::size_t x = 0; x < run.width; ++x) {
      const std::size_t pixel = x * run.stride;
      const std::uint32_t alpha = transparent ? sample(pixel + l.colours()) : largest;
      for (std::size_t c = 0; c < l.colours(); ++c) {
        const std::uint32_t value = inverted ? largest - sample(pixel + c) : sample(pixel + c);
        *out++ = over_white(value, alpha, largest, l.premultiplied);
      }
    }
  });
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
  const bool direct = is_direct(tiff, l);
  CodedImage header;
  header.width_px = static_cast<int>(l.width_px);
  header.height_px = static_cast<int>(l.height_px);
  header.components = direct ? static_cast<int>(l.colours()) : 3;
  header.bits = direct ? l.bits : 8;
  header.icc_profile = icc_profile_of(tiff, header.components);
  set_ppi(header, l.ppi_x, l.ppi_y);
  Raster raster = empty_raster(header, file);
  tiff.expect_pixels();
  direct ? read_samples(tiff, l, raster) : read_through_libtiff(tiff, l, raster);
  tiff.check();
  const bool known = l.orientation >= 1 && l.orientation <= 8;
  return oriented(std::move(raster), known ? l.orientation : 1);
}

}  // namespace

int count_tiff_pages(const PictureFile& file) {
  images::TiffReader tiff(file.bytes);
  return static_cast<int>(pictures_of(tiff, file.name).size());
}

Raster decode_tiff(const PictureFile& file) {
  images::TiffReader tiff(file.bytes);
  choose_page(tiff, file.page, file.name);
  return decode(tiff, file.name);
}

CodedImage parse_tiff(const PictureFile& file) {
  CodedImage image = coded_again(decode_tiff(file));
  image.page = file.page;
  return image;
}

}  // namespace versolay
