#include "rehearse/drawn_page.h"

#include <tiffio.h>

#include <fstream>
#include <limits>
#include <memory>

#include "rehearse/findings.h"
#include "versolay/result.h"

namespace versolay::rehearse {
namespace {

PageRaster blank(int width, int height, double ppi) {
  if (width <= 0 || height <= 0) return {};
  return {width, height, ppi,
          std::vector<std::uint8_t>(static_cast<std::size_t>(width) *
                                    static_cast<std::size_t>(height))};
}

/// Empty when it cannot be read.
PageRaster read_tiff(const std::filesystem::path& path, double ppi) {
  const std::unique_ptr<TIFF, void (*)(TIFF*)> tiff(TIFFOpen(path.c_str(), "r"), TIFFClose);
  if (!tiff) return {};
  std::uint32_t width = 0, height = 0;
  std::uint16_t bits = 0, samples = 0, photometric = 0;
  TIFFGetField(tiff.get(), TIFFTAG_IMAGEWIDTH, &width);
  TIFFGetField(tiff.get(), TIFFTAG_IMAGELENGTH, &height);
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_BITSPERSAMPLE, &bits);
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_SAMPLESPERPIXEL, &samples);
  TIFFGetField(tiff.get(), TIFFTAG_PHOTOMETRIC, &photometric);
  if (bits != 8 || samples != 1 || photometric != PHOTOMETRIC_MINISBLACK) return {};
  PageRaster raster = blank(static_cast<int>(width), static_cast<int>(height), ppi);
  for (int y = 0; y < raster.height; ++y) {
    if (TIFFReadScanline(tiff.get(), raster.row(y), static_cast<std::uint32_t>(y)) < 0) return {};
  }
  return raster;
}

/// Source  Netpbm, pgm(5): "P5", width, height, largest value, one blank, the rows. (mutool writes
/// a comment behind "P5".) Empty when it cannot be read.
PageRaster read_pgm(const std::filesystem::path& path, double ppi) {
  std::ifstream in(path, std::ios::binary);
  std::string magic;
  in >> magic >> std::ws;
  while (in.peek() == '#') {
    in.ignore(std::numeric_limits<std::streamsize>::max(), '\n');
  }
  int width = 0, height = 0, largest = 0;
  in >> width >> height >> largest;
  in.get();
  if (!in || magic != "P5" || largest != 255) return {};
  PageRaster raster = blank(width, height, ppi);
  in.read(reinterpret_cast<char*>(raster.ink.data()),
          static_cast<std::streamsize>(raster.ink.size()));
  if (!in) return {};
  return raster;
}

}  // namespace

PageRaster read_drawn_page(const std::filesystem::path& path, double ppi) {
  PageRaster raster = path.extension() == ".pgm" ? read_pgm(path, ppi) : read_tiff(path, ppi);
  if (raster.ink.empty()) throw Error(path.string(), findings::not_a_grey_picture());
  for (std::uint8_t& value : raster.ink) value = static_cast<std::uint8_t>(255 - value);
  return raster;
}

}  // namespace versolay::rehearse
