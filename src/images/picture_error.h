// What a decoder finds wrong with a picture.
#pragma once

#include <exception>
#include <string>
#include <utility>

namespace versolay::images {

enum class PictureFault {
  damaged,      // the pixels are not all there, or not what was written
  unsupported,  // sound, of a kind that is not read
  too_large,    // for the library that reads the format
};

/// Whoever asked for the picture says it to the person, with the name of the file and what to do.
class PictureError : public std::exception {
 public:
  /// @param detail  the library's own words, or as short ones of ours.
  PictureError(PictureFault fault, std::string detail)
      : fault_(fault), detail_(std::move(detail)) {}
  PictureFault fault() const { return fault_; }
  const std::string& detail() const { return detail_; }
  const char* what() const noexcept override { return detail_.c_str(); }

 private:
  PictureFault fault_;
  std::string detail_;
};

[[noreturn]] inline void damaged(std::string detail) {
  throw PictureError(PictureFault::damaged, std::move(detail));
}

}  // namespace versolay::images
