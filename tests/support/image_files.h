// Small image files, made for a test.
#pragma once

// jpeglib.h needs size_t and FILE to be known.
#include <cstddef>
#include <cstdio>
#include <cstdlib>
//
#include <jpeglib.h>
#include <png.h>

#include <cmath>
#include <string>
#include <vector>

#include "artwork/raster.h"

namespace versolay::testing_support {

/// A picture without straight lines or symmetry, so that every mistake shows.
inline Raster test_picture(int width, int height, int channels, int bits = 8) {
  Raster r;
  r.width_px = width;
  r.height_px = height;
  r.channels = channels;
  r.bits = bits;
  r.samples.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                   static_cast<std::size_t>(channels));
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      for (int c = 0; c < channels; ++c) {
        const double v = 0.5 + 0.25 * std::sin(0.11 * x + 0.03 * y + c) +
                         0.2 * std::cos(0.002 * x * y + 0.07 * y - c);
        r.at(x, y, c) = static_cast<std::uint16_t>(std::lround(v * r.largest()));
      }
    }
  }
  return r;
}

/// A baseline or progressive JPEG, made by libjpeg. `marker` bytes go into an APP segment.
/// @param restart_rows  rows of blocks between restart markers; 0: no such markers.
inline std::string jpeg_bytes(const Raster& r, bool progressive = false, int app = 0,
                              const std::string& marker = "", int ppi = 300, int restart_rows = 0) {
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* out = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &out, &size);
  info.image_width = static_cast<JDIMENSION>(r.width_px);
  info.image_height = static_cast<JDIMENSION>(r.height_px);
  info.input_components = r.channels;
  info.in_color_space = r.channels == 1 ? JCS_GRAYSCALE : r.channels == 3 ? JCS_RGB : JCS_CMYK;
  jpeg_set_defaults(&info);
  jpeg_set_quality(&info, 95, TRUE);
  info.density_unit = 1;
  info.X_density = info.Y_density = static_cast<UINT16>(ppi);
  if (progressive) jpeg_simple_progression(&info);
  info.restart_in_rows = restart_rows;
  jpeg_start_compress(&info, TRUE);
  if (app != 0) {
    jpeg_write_marker(&info, JPEG_APP0 + app, reinterpret_cast<const JOCTET*>(marker.data()),
                      static_cast<unsigned>(marker.size()));
  }
  std::vector<unsigned char> row(static_cast<std::size_t>(r.width_px * r.channels));
  for (int y = 0; y < r.height_px; ++y) {
    for (int x = 0; x < r.width_px; ++x) {
      for (int c = 0; c < r.channels; ++c) {
        row[static_cast<std::size_t>(x * r.channels + c)] =
            static_cast<unsigned char>(r.at(x, y, c));
      }
    }
    unsigned char* rows[] = {row.data()};
    jpeg_write_scanlines(&info, rows, 1);
  }
  jpeg_finish_compress(&info);
  std::string bytes(reinterpret_cast<char*>(out), size);
  jpeg_destroy_compress(&info);
  std::free(out);
  return bytes;
}

/// The APP1 payload of an EXIF block that holds an orientation and nothing else.
inline std::string exif_orientation_block(int orientation, bool little_endian) {
  using namespace std::string_literals;
  const char o = static_cast<char>(orientation);
  if (little_endian) {
    return "Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0"s + o + "\0\0\0\0\0\0\0"s;
  }
  return "Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0"s + o + "\0\0\0\0\0\0"s;
}

struct PngKind {
  int colour_type = PNG_COLOR_TYPE_RGB;
  int bits = 8;
  bool interlaced = false;
};

/// A PNG of any kind, made by libpng from raw rows (`channels` of the kind, `bits` a sample).
inline std::string png_bytes(const PngKind& kind, int width, int height,
                             const std::vector<std::vector<unsigned char>>& rows,
                             const std::vector<png_color>& palette = {}) {
  std::string bytes;
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  png_set_write_fn(
      png, &bytes,
      [](png_structp p, png_bytep data, png_size_t count) {
        static_cast<std::string*>(png_get_io_ptr(p))->append(reinterpret_cast<char*>(data), count);
      },
      nullptr);
  png_set_IHDR(png, info, static_cast<png_uint_32>(width), static_cast<png_uint_32>(height),
               kind.bits, kind.colour_type, kind.interlaced ? PNG_INTERLACE_ADAM7 : 0, 0, 0);
  if (!palette.empty()) png_set_PLTE(png, info, palette.data(), static_cast<int>(palette.size()));
  png_write_info(png, info);
  std::vector<png_bytep> pointers;
  for (const auto& row : rows) pointers.push_back(const_cast<png_bytep>(row.data()));
  png_write_image(png, pointers.data());
  png_write_end(png, nullptr);
  png_destroy_write_struct(&png, &info);
  return bytes;
}

/// A header of 128 bytes that claims to be an ICC profile for a colour space ("RGB ", "GRAY").
inline std::string tiny_icc_profile(const std::string& space) {
  std::string profile(132, '\0');
  profile[3] = static_cast<char>(profile.size());
  profile.replace(12, 4, "mntr");
  profile.replace(16, 4, space);
  profile.replace(20, 4, "XYZ ");
  profile.replace(36, 4, "acsp");
  return profile;
}

}  // namespace versolay::testing_support
