// Image files of the artwork, read without touching their coded pixels: a PDF takes the bytes of a
// JPEG as they are, and the compressed rows of most PNGs too.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace versolay {

enum class PixelCoding {
  jpeg,      // `data` is the whole JPEG file
  png_rows,  // `data` is one zlib stream of rows, each with its PNG filter byte
};

/// An image file that was checked to be whole.
struct CodedImage {
  std::string file;
  int page = 0;  // of a TIFF, from 1; 0: the only one
  PixelCoding coding = PixelCoding::png_rows;
  int width_px = 0;  // as stored
  int height_px = 0;
  int components = 3;           // 1 grey, 3 RGB, 4 CMYK; of the palette, if there is one
  int bits = 8;                 // of a sample: 1, 2, 4 (grey or palette), 8 or 16
  std::string palette;          // RGB triples; empty: the samples are the colours
  bool inverted = false;        // CMYK written with 255 for no ink (Adobe's way)
  int orientation = 1;          // EXIF: how the stored picture is to be shown, 1..8
  std::string icc_profile;      // empty: none, or one that does not match the components
  std::optional<double> ppi_x;  // what the file says; a hint
  std::optional<double> ppi_y;
  bool recoded = false;  // transparency (laid over white), interlaced rows or a TIFF: the same
                         // samples, repacked
  std::string data;      // may be dropped: see coded_data
  std::uint64_t data_size = 0;
  std::uint32_t data_sum = 0;  // CRC-32 of it

  bool lies() const { return orientation >= 5; }  // shown turned by a quarter
  int seen_width_px() const { return lies() ? height_px : width_px; }
  int seen_height_px() const { return lies() ? width_px : height_px; }
};

/// Reads a JPEG, PNG or TIFF file. The size in the header is checked before anything is unpacked.
/// It is decoded once to be sure that the file is whole.
/// Throws Error for a file of another kind, too large (over 30,000 px a side or 300 megapixels),
/// damaged or cut short, or of a kind that a PDF cannot hold (12 bit, lossless or arithmetic JPEG;
/// a TIFF of several pages none of which was named, a page that is not there).
/// @param page  of a TIFF, from 1; 0: the only one.
CodedImage read_coded_image(const std::filesystem::path& path, int page = 0);
/// The same, of a file in memory. @param file  for messages.
CodedImage parse_image(std::string bytes, const std::string& file, int page = 0);

/// 1, or the number of pictures in a TIFF. Throws Error for a TIFF that is damaged.
int pages_in(const std::filesystem::path& image);
int pages_in(std::string_view bytes, const std::string& file);

/// The coded pixels of an image; if `data` has been dropped, the file is read again. This is why a
/// job of hundreds of cards needs no more memory than one card.
/// Throws Error like read_coded_image, and when the file has changed meanwhile.
std::string coded_data(const CodedImage& image);

/// Is this a name that read_coded_image can read (.jpg, .jpeg, .png, .tif, .tiff in any case)?
bool has_image_name(const std::filesystem::path& path);

}  // namespace versolay
