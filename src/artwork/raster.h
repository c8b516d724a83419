// Decoded pixels, for the few places that cannot work on the coded image.
#pragma once

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "artwork/coded_image.h"

namespace versolay {

/// Grey, RGB or CMYK pixels, row by row from the top, samples interleaved. 8-bit images use 0..255
/// of the 16-bit samples, 16-bit images all of it. The centre of the first pixel is at (0.5, 0.5).
struct Raster {
  int width_px = 0;
  int height_px = 0;
  int channels = 3;  // 1, 3 or 4
  int bits = 8;      // 8 or 16
  std::vector<std::uint16_t> samples;
  std::string icc_profile;
  std::optional<double> ppi_x;
  std::optional<double> ppi_y;

  int largest() const { return bits == 8 ? 255 : 65535; }
  std::size_t row_samples() const {
    return static_cast<std::size_t>(width_px) * static_cast<std::size_t>(channels);
  }
  std::uint16_t& at(int x, int y, int channel) { return samples[index(x, y, channel)]; }
  std::uint16_t at(int x, int y, int channel) const { return samples[index(x, y, channel)]; }

 private:
  std::size_t index(int x, int y, int channel) const {
    return static_cast<std::size_t>(y) * row_samples() +
           static_cast<std::size_t>(x * channels + channel);
  }
};

/// A sample at `alpha` (both of 0..largest) over white paper.
/// @param multiplied  the sample was multiplied by its alpha already.
constexpr std::uint16_t over_white(std::uint32_t sample, std::uint32_t alpha, std::uint32_t largest,
                                   bool multiplied = false) {
  const std::uint64_t own = std::uint64_t{sample} * (multiplied ? largest : alpha);
  const std::uint64_t sum = own + std::uint64_t{largest} * (largest - alpha) + largest / 2;
  return static_cast<std::uint16_t>(std::min<std::uint64_t>(sum / largest, largest));
}

/// Decodes a PNG, JPEG or TIFF file: palettes become colours, transparency is laid over white, an
/// EXIF orientation is applied. Throws Error as read_coded_image does, and for a CMYK JPEG.
/// @param page  of a TIFF, from 1; 0: the only one.
Raster read_raster(const std::filesystem::path& path, int page = 0);

/// The same, of a file in memory. @param file  for messages.
Raster decode_image(std::string_view bytes, const std::string& file, int page = 0);

/// A PNG file with the samples, the profile and the resolution of the raster. Precondition: grey
/// or RGB.
std::string encode_png(const Raster& raster);

/// A TIFF file (deflate), likewise; CMYK, too.
std::string encode_tiff(const Raster& raster);

/// The samples as one zlib stream of rows with their PNG filter byte, for any number of channels.
std::string png_rows(const Raster& raster);

/// The raster packed as a PDF needs it (`recoded`).
CodedImage coded_again(Raster raster);

}  // namespace versolay
