// PNG files, read by libpng.
#pragma once

#include <png.h>

#include <array>
#include <csetjmp>
#include <cstdint>
#include <cstdio>
#include <string>
#include <string_view>

#include "images/picture_error.h"

namespace versolay::images {

bool looks_like_png(std::string_view bytes);

/// What libpng says of a picture: it is the one that decodes it.
struct PngHeader {
  png_uint_32 width_px = 0;
  png_uint_32 height_px = 0;
  int bits = 0;  // of a sample, or of a palette index
  int colour_type = 0;
  int channels = 0;  // as stored
  bool interlaced = false;
  bool transparent_colour = false;  // tRNS
  std::size_t row_bytes = 0;        // as stored, before filtering
  double ppi_x = 0.0;               // 0: not said
  double ppi_y = 0.0;
  int orientation = 1;  // Exif: 1..8

  bool has_palette() const { return colour_type == PNG_COLOR_TYPE_PALETTE; }
  bool has_alpha() const { return (colour_type & PNG_COLOR_MASK_ALPHA) != 0; }
};

/// A PNG whose header was read. libpng reports errors by longjmp, which must not pass over a C++
/// destructor: every call goes through run(), whose step has no object to destroy.
///
/// Errors in the image data count as damage; warnings about profiles, texts and checksums of other
/// chunks do not. A chunk of more than 16 MB without image data is refused: 57 bytes can announce
/// 2 GB.
class PngReader {
 public:
  /// Reads from the file's current position; it must outlive this. Throws PictureError.
  explicit PngReader(std::FILE* file);
  /// The bytes must outlive this. Throws PictureError.
  explicit PngReader(std::string_view bytes);
  PngReader(const PngReader&) = delete;
  PngReader& operator=(const PngReader&) = delete;
  ~PngReader() { png_destroy_read_struct(&png_, &info_, nullptr); }

  const PngHeader& header() const { return header_; }
  /// PLTE: red, green, blue; empty without a palette.
  std::string palette() const;
  /// iCCP, unpacked, even if libpng rejects it; empty if there is none or it cannot be unpacked.
  std::string icc_profile() const;
  /// Of bytes: from here on the coded rows, the bodies of the IDAT chunks, are kept as they are.
  void keep_image_data() {
    keeps_image_data_ = true;
    image_data_.reserve(left_.size());
  }
  const std::string& image_data() const { return image_data_; }
  /// Has there been more image data than the header announces?
  bool surplus() const { return surplus_; }

  /// step(png, info): libpng calls and values without destructors only. Throws PictureError.
  template <class Step>
  void run(const Step& step) {
    if (!completes(step)) damaged(complaint_.data());
  }

 private:
  static void on_error(png_structp png, png_const_charp message);
  static void on_warning(png_structp png, png_const_charp message);
  static void supply(png_structp png, png_bytep out, png_size_t count);
  void create();
  void read_header();

  template <class Step>
  bool completes(const Step& step) {
    if (setjmp(png_jmpbuf(png_)) != 0) return false;
    step(png_, info_);
    return true;
  }

  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  std::string_view left_;
  std::array<char, 200> complaint_{};  // written inside callbacks: no allocation
  bool surplus_ = false;
  bool keeps_image_data_ = false;
  std::string image_data_;  // no allocation in callbacks
  PngHeader header_;
};

}  // namespace versolay::images
