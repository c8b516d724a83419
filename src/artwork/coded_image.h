// Image files of the artwork, read without touching their coded pixels: a PDF takes the bytes of a
// JPEG as they are, and the compressed rows of most PNGs too.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace versolay {

enum class PixelCoding {
  jpeg,      // `data` is the whole JPEG file
  png_rows,  // `data` is one zlib stream of 8-bit rows, each with its PNG filter byte
};

/// An image file that was checked from its first byte to its last.
struct CodedImage {
  std::string file;
  PixelCoding coding = PixelCoding::png_rows;
  int width_px = 0;  // as stored
  int height_px = 0;
  int components = 3;           // 1 grey, 3 RGB, 4 CMYK
  bool inverted = false;        // CMYK written with 255 for no ink (Adobe's way)
  int orientation = 1;          // EXIF: how the stored picture is to be shown, 1..8
  std::string icc_profile;      // empty: none, or one that does not match the components
  std::optional<double> ppi_x;  // what the file says; a hint
  std::optional<double> ppi_y;
  bool recoded = false;  // a palette, transparency (over white), 16 bit or interlaced rows were
                         // turned into plain 8-bit rows
  std::string data;

  bool lies() const { return orientation >= 5; }  // shown turned by a quarter
  int seen_width_px() const { return lies() ? height_px : width_px; }
  int seen_height_px() const { return lies() ? width_px : height_px; }
};

/// Reads a JPEG or PNG file. The size in the header is checked before anything is unpacked, and all
/// pixels are decoded once to be sure that the file is whole.
/// Throws Error for a file that is not JPEG or PNG, too large (over 30,000 px a side or 300
/// megapixels), damaged or cut short, or of a kind that a PDF cannot hold (12 bit, lossless or
/// arithmetic JPEG).
CodedImage read_coded_image(const std::filesystem::path& path);

/// Is this a name that read_coded_image can read (.jpg, .jpeg, .png in any case)?
bool has_image_name(const std::filesystem::path& path);

}  // namespace versolay
