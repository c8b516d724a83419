// The file behind a scan, and its error messages.
#pragma once

#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>

#include "images/picture_error.h"
#include "scan/scan.h"

namespace versolay::scan {

/// A page of a file, for messages.
struct Place {
  std::filesystem::path path;
  int page = 1;
  int pages = 1;

  std::string text() const;  // "folder/scan3.tif, page 2"
};

/// The pixels are not all there, or not what was written. `detail`: the decoder's own words.
Error damaged(const Place& place, const std::string& detail);
/// What a decoder says of a picture, with the name of the file and what to do.
Error in_words(const images::PictureError& fault, const Place& place);
/// What `read` returns. Throws what a decoder finds as an Error of this place.
template <class Read>
auto decoding(const Place& place, const Read& read) {
  try {
    return read();
  } catch (const images::PictureError& fault) {
    throw in_words(fault, place);
  }
}
/// Throws Error unless 0 < width, height and both are within the limits.
void check_size(const Place& place, std::int64_t width, std::int64_t height,
                std::int64_t bits_per_pixel, const ScanLimits& limits);

enum class Format { png, jpeg, tiff, pdf };

/// A regular, readable, non-empty file, at its first byte. Errors name the file.
class InputFile {
 public:
  explicit InputFile(const std::filesystem::path& path);

  std::FILE* handle() const { return file_.get(); }
  int descriptor() const;
  std::int64_t size() const { return size_; }
  /// By signature; throws Error for any other format. Leaves the file at its first byte.
  Format format() const;

 private:
  struct Closer {
    void operator()(std::FILE* f) const { std::fclose(f); }
  };
  std::filesystem::path path_;
  std::unique_ptr<std::FILE, Closer> file_;
  std::int64_t size_ = 0;
};

}  // namespace versolay::scan
