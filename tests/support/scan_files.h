// Scan files for tests and benchmarks: a drawn sheet, written through the format libraries.
#pragma once

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
// jpeglib.h needs FILE and size_t before it.
#include <jpeglib.h>
#include <png.h>
#include <tiffio.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "support/scratch_folder.h"

namespace versolay::scan_files {

/// Small, fast, the same everywhere. Source  Marsaglia, "Xorshift RNGs", J. Stat. Soft. 8(14),
/// 2003.
class Random {
 public:
  explicit Random(std::uint32_t seed) : state_(seed * 2654435769u + 1u) {}
  std::uint32_t next() {
    state_ ^= state_ << 13;
    state_ ^= state_ >> 17;
    state_ ^= state_ << 5;
    return state_;
  }
  std::uint32_t below(std::uint32_t n) { return next() % n; }

 private:
  std::uint32_t state_;
};

/// Samples of 1..16 bits in 16-bit units, one pixel after the other, rows from the top.
struct Picture {
  int width = 0;
  int height = 0;
  int channels = 1;
  int bits = 8;
  std::vector<std::uint16_t> samples;

  int max() const { return (1 << bits) - 1; }
  std::uint16_t at(int x, int y, int c = 0) const {
    const std::size_t pixel =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
    return samples[pixel * static_cast<std::size_t>(channels) + static_cast<std::size_t>(c)];
  }
};

/// Paper with a slope of light and sensor noise, rings of ink, and a coloured corner.
inline Picture draw_sheet(int width, int height, int channels, int bits, std::uint32_t seed = 1) {
  Picture p{width, height, channels, bits, {}};
  p.samples.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                    static_cast<std::size_t>(channels));
  Random random(seed);
  const int colours = channels >= 3 ? 3 : 1;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const int u = x % 96 - 48;
      const int v = y % 96 - 48;
      const int r2 = u * u + v * v;
      const bool ink = r2 > 20 * 20 && r2 < 30 * 30;
      for (int c = 0; c < channels; ++c) {
        double light = ink ? 0.12 : 0.93 - 0.1 * x / width;
        if (x < width / 3 && y < height / 3) light *= 1.0 - 0.25 * c;  // a tinted corner
        light += (random.below(9) - 4.0) / 255.0;
        if (c == colours) light = 1.0 - 0.6 * y / height;  // alpha
        const double level = std::fmin(1.0, std::fmax(0.0, light));
        p.samples.push_back(static_cast<std::uint16_t>(std::lround(level * p.max())));
      }
    }
  }
  return p;
}

/// One row, packed as PNG and TIFF want it: high bits first; 16 bits in big-endian order if asked.
inline std::vector<std::uint8_t> packed_row(const Picture& p, int y, bool big_endian,
                                            int only_channel = -1) {
  std::vector<std::uint8_t> row;
  unsigned collected = 0;
  int n_bits = 0;
  for (int x = 0; x < p.width; ++x) {
    for (int c = 0; c < p.channels; ++c) {
      if (only_channel >= 0 && c != only_channel) continue;
      const unsigned v = p.at(x, y, c);
      if (p.bits == 16) {
        row.push_back(static_cast<std::uint8_t>(big_endian ? v >> 8 : v & 255u));
        row.push_back(static_cast<std::uint8_t>(big_endian ? v & 255u : v >> 8));
        continue;
      }
      collected = collected << p.bits | v;
      n_bits += p.bits;
      if (n_bits == 8) {
        row.push_back(static_cast<std::uint8_t>(collected));
        collected = 0;
        n_bits = 0;
      }
    }
  }
  if (n_bits > 0) row.push_back(static_cast<std::uint8_t>(collected << (8 - n_bits)));
  return row;
}

/// Colours of a palette of 2^bits entries, neither grey nor in order of their light.
inline std::vector<png_color> test_palette(int bits) {
  std::vector<png_color> palette(std::size_t{1} << bits);
  Random random(77);
  for (png_color& c : palette) {
    c.red = static_cast<png_byte>(random.below(256));
    c.green = static_cast<png_byte>(random.below(256));
    c.blue = static_cast<png_byte>(random.below(256));
  }
  return palette;
}

struct PngOptions {
  int colour_type = PNG_COLOR_TYPE_GRAY;
  bool interlaced = false;
  png_uint_32 x_per_metre = 0;  // 0: no pHYs
  png_uint_32 y_per_metre = 0;
  int compression = 3;
  // Called before the header is written, to add chunks.
  std::function<void(png_structp, png_infop)> more = {};
};

inline void write_png(const std::filesystem::path& path, const Picture& p,
                      const PngOptions& options) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  png_init_io(png, file);
  png_set_compression_level(png, options.compression);
  png_set_IHDR(png, info, static_cast<png_uint_32>(p.width), static_cast<png_uint_32>(p.height),
               p.bits, options.colour_type,
               options.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (options.colour_type == PNG_COLOR_TYPE_PALETTE) {
    const std::vector<png_color> palette = test_palette(p.bits);
    png_set_PLTE(png, info, palette.data(), static_cast<int>(palette.size()));
  }
  if (options.x_per_metre != 0) {
    png_set_pHYs(png, info, options.x_per_metre, options.y_per_metre, PNG_RESOLUTION_METER);
  }
  if (options.more) options.more(png, info);
  png_write_info(png, info);
  const int passes = options.interlaced ? png_set_interlace_handling(png) : 1;
  for (int pass = 0; pass < passes; ++pass) {
    for (int y = 0; y < p.height; ++y) png_write_row(png, packed_row(p, y, true).data());
  }
  png_write_end(png, nullptr);
  png_destroy_write_struct(&png, &info);
  std::fclose(file);
}

struct JpegOptions {
  J_COLOR_SPACE in_colours = JCS_GRAYSCALE;
  J_COLOR_SPACE stored_colours = JCS_GRAYSCALE;
  int quality = 95;
  bool progressive = false;
  bool chroma_at_half_size = true;
  int density_unit = 0;
  int x_density = 1;
  int y_density = 1;
  std::string exif = {};  // TIFF structure without the "Exif" header; empty: none
};

inline void write_jpeg(const std::filesystem::path& path, const Picture& p,
                       const JpegOptions& options) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  jpeg_error_mgr errors;
  jpeg_compress_struct jpeg;
  jpeg.err = jpeg_std_error(&errors);
  jpeg_create_compress(&jpeg);
  jpeg_stdio_dest(&jpeg, file);
  jpeg.image_width = static_cast<JDIMENSION>(p.width);
  jpeg.image_height = static_cast<JDIMENSION>(p.height);
  jpeg.input_components = p.channels;
  jpeg.in_color_space = options.in_colours;
  jpeg_set_defaults(&jpeg);
  jpeg_set_colorspace(&jpeg, options.stored_colours);
  jpeg_set_quality(&jpeg, options.quality, TRUE);
  if (!options.chroma_at_half_size) {
    jpeg.comp_info[0].h_samp_factor = jpeg.comp_info[0].v_samp_factor = 1;
  }
  if (options.progressive) jpeg_simple_progression(&jpeg);
  jpeg.density_unit = static_cast<UINT8>(options.density_unit);
  jpeg.X_density = static_cast<UINT16>(options.x_density);
  jpeg.Y_density = static_cast<UINT16>(options.y_density);
  jpeg_start_compress(&jpeg, TRUE);
  if (!options.exif.empty()) {
    const std::string marker = std::string("Exif\0\0", 6) + options.exif;
    jpeg_write_marker(&jpeg, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(marker.data()),
                      static_cast<unsigned>(marker.size()));
  }
  for (int y = 0; y < p.height; ++y) {
    std::vector<std::uint8_t> row = packed_row(p, y, true);
    JSAMPROW start = row.data();
    jpeg_write_scanlines(&jpeg, &start, 1);
  }
  jpeg_finish_compress(&jpeg);
  jpeg_destroy_compress(&jpeg);
  std::fclose(file);
}

struct TiffOptions {
  int photometric = PHOTOMETRIC_MINISBLACK;
  int compression = COMPRESSION_NONE;
  int rows_per_strip = 16;
  int tile = 0;  // side of square tiles, 0: strips
  bool planar = false;
  bool big_endian = false;
  bool big_tiff = false;
  int orientation = 1;
  int resolution_unit = RESUNIT_INCH;
  double x_resolution = 0.0;  // 0: none
  double y_resolution = 0.0;
  int extra_sample = -1;  // kind of the sample after the colours, -1: none
  int subfile_type = 0;
};

inline void write_tiff_palette(TIFF* tiff, int bits) {
  std::vector<std::uint16_t> r, g, b;
  for (const png_color& c : test_palette(bits)) {
    r.push_back(static_cast<std::uint16_t>(c.red * 257));
    g.push_back(static_cast<std::uint16_t>(c.green * 257));
    b.push_back(static_cast<std::uint16_t>(c.blue * 257));
  }
  TIFFSetField(tiff, TIFFTAG_COLORMAP, r.data(), g.data(), b.data());
}

inline void write_tiff_tiles(TIFF* tiff, const Picture& p, const TiffOptions& options) {
  const int side = options.tile;
  const int planes = options.planar ? p.channels : 1;
  std::vector<std::uint8_t> tile(static_cast<std::size_t>(TIFFTileSize(tiff)));
  const std::size_t row_bytes = static_cast<std::size_t>(TIFFTileRowSize(tiff));
  const std::size_t tile_step = row_bytes;
  for (int plane = 0; plane < planes; ++plane) {
    for (int y0 = 0; y0 < p.height; y0 += side) {
      for (int x0 = 0; x0 < p.width; x0 += side) {
        std::fill(tile.begin(), tile.end(), std::uint8_t{0});
        for (int y = y0; y < std::min(y0 + side, p.height); ++y) {
          const auto row = packed_row(p, y, false, options.planar ? plane : -1);
          const std::size_t from = row_bytes * static_cast<std::size_t>(x0 / side);
          const std::size_t n = std::min(row_bytes, row.size() - from);
          std::copy_n(row.begin() + static_cast<std::ptrdiff_t>(from), n,
                      tile.begin() + static_cast<std::ptrdiff_t>(tile_step *
                                                                 static_cast<std::size_t>(y - y0)));
        }
        TIFFWriteTile(tiff, tile.data(), static_cast<std::uint32_t>(x0),
                      static_cast<std::uint32_t>(y0), 0, static_cast<std::uint16_t>(plane));
      }
    }
  }
}

inline void write_tiff_page(TIFF* tiff, const Picture& p, const TiffOptions& options) {
  TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, p.width);
  TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, p.height);
  TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, p.bits);
  TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, p.channels);
  TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, options.photometric);
  TIFFSetField(tiff, TIFFTAG_COMPRESSION, options.compression);
  TIFFSetField(tiff, TIFFTAG_PLANARCONFIG,
               options.planar ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG);
  TIFFSetField(tiff, TIFFTAG_ORIENTATION, options.orientation);
  if (options.subfile_type != 0) TIFFSetField(tiff, TIFFTAG_SUBFILETYPE, options.subfile_type);
  if (options.extra_sample >= 0) {
    const auto kind = static_cast<std::uint16_t>(options.extra_sample);
    TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, 1, &kind);
  }
  if (options.x_resolution != 0.0) {
    TIFFSetField(tiff, TIFFTAG_RESOLUTIONUNIT, options.resolution_unit);
    TIFFSetField(tiff, TIFFTAG_XRESOLUTION, options.x_resolution);
    TIFFSetField(tiff, TIFFTAG_YRESOLUTION, options.y_resolution);
  }
  if (options.photometric == PHOTOMETRIC_PALETTE) write_tiff_palette(tiff, p.bits);
  if (options.compression == COMPRESSION_JPEG) {
    TIFFSetField(tiff, TIFFTAG_JPEGQUALITY, 95);
    if (options.photometric == PHOTOMETRIC_YCBCR) {
      TIFFSetField(tiff, TIFFTAG_JPEGCOLORMODE, JPEGCOLORMODE_RGB);
    }
  }
  if (options.tile > 0) {
    TIFFSetField(tiff, TIFFTAG_TILEWIDTH, options.tile);
    TIFFSetField(tiff, TIFFTAG_TILELENGTH, options.tile);
    write_tiff_tiles(tiff, p, options);
  } else {
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, options.rows_per_strip);
    for (int plane = 0; plane < (options.planar ? p.channels : 1); ++plane) {
      for (int y = 0; y < p.height; ++y) {
        auto row = packed_row(p, y, false, options.planar ? plane : -1);
        TIFFWriteScanline(tiff, row.data(), static_cast<std::uint32_t>(y),
                          static_cast<std::uint16_t>(plane));
      }
    }
  }
  TIFFWriteDirectory(tiff);
}

struct TiffPage {
  Picture picture;
  TiffOptions options;
};

inline void write_tiff(const std::filesystem::path& path, const std::vector<TiffPage>& pages) {
  std::string mode = "w";
  if (pages.front().options.big_endian) mode += "b";
  if (pages.front().options.big_tiff) mode += "8";
  TIFF* tiff = TIFFOpen(path.c_str(), mode.c_str());
  for (const TiffPage& page : pages) write_tiff_page(tiff, page.picture, page.options);
  TIFFClose(tiff);
}

using Folder = testing_support::ScratchFolder;

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void write_bytes(const std::filesystem::path& path, std::string_view bytes) {
  std::ofstream(path, std::ios::binary)
      .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

}  // namespace versolay::scan_files
