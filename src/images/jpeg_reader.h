// JPEG files, read by libjpeg.
#pragma once

// jpeglib.h needs size_t and FILE to be known.
#include <cstddef>
#include <cstdio>
//
#include <jpeglib.h>

#include <array>
#include <csetjmp>
#include <string>
#include <string_view>

#include "images/exif.h"
#include "images/picture_error.h"

namespace versolay::images {

bool looks_like_jpeg(std::string_view bytes);

/// What libjpeg says of a picture: it is the one that decodes it.
struct JpegHeader {
  unsigned width_px = 0;
  unsigned height_px = 0;
  int components = 0;
  J_COLOR_SPACE colours = JCS_UNKNOWN;
  bool arithmetic = false;
  bool adobe = false;  // has the marker of Adobe
  double ppi_x = 0.0;  // of the JFIF header; 0: not said
  double ppi_y = 0.0;
  ExifHints exif;
};

/// A JPEG whose headers were read. libjpeg reports errors by longjmp, which must not pass over a
/// C++ destructor: every call goes through run(), whose step has no object to destroy.
///
/// Warnings count as damage, because libjpeg then invents pixels (grey below the end of a truncated
/// file). Exceptions, which cost no pixels: an unknown version or colour transform, and stray bytes
/// between the segments of the headers. More than 200 scans are refused: real progressive files
/// have about ten, and each one costs a pass over the picture.
class JpegReader {
 public:
  /// Reads from the file's current position; it must outlive this. Throws PictureError.
  explicit JpegReader(std::FILE* file);
  /// The bytes must outlive this. Throws PictureError.
  explicit JpegReader(std::string_view bytes);
  JpegReader(const JpegReader&) = delete;
  JpegReader& operator=(const JpegReader&) = delete;
  ~JpegReader() { jpeg_destroy_decompress(&decoder_); }

  const JpegHeader& header() const { return header_; }
  /// Of all APP2 segments, in their order; empty when one is missing.
  std::string icc_profile();
  /// From here on, stray bytes before a marker do no harm: cameras pad files with them. Pixels that
  /// are missing are damage all the same.
  void allow_stray_bytes() { errors_.allow_stray_bytes = true; }

  /// step(decoder): libjpeg calls and values without destructors only. Throws PictureError.
  template <class Step>
  void run(const Step& step) {
    if (!completes(step)) throw error();
  }

 private:
  struct Errors {
    jpeg_error_mgr base;  // first: libjpeg hands back a pointer to it
    std::jmp_buf escape;
    std::array<char, JMSG_LENGTH_MAX> text;
    bool allow_stray_bytes;
  };
  static void on_error(j_common_ptr decoder);
  static void on_message(j_common_ptr decoder, int level);
  static void on_progress(j_common_ptr decoder);
  template <class Source>
  void open(const Source& source);
  PictureError error() const;

  template <class Step>
  bool completes(const Step& step) {
    if (setjmp(errors_.escape) != 0) return false;
    step(&decoder_);
    return true;
  }

  Errors errors_{};
  jpeg_progress_mgr progress_{};
  jpeg_decompress_struct decoder_{};
  JpegHeader header_;
};

}  // namespace versolay::images
