// An open TIFF file whose complaints are kept instead of printed.
#pragma once

#include <tiffio.h>

#include <array>
#include <memory>
#include <string>

#include "scan/input_file.h"

namespace versolay::scan {

/// How the strips come into memory. libtiff holds a whole strip of the file as it is stored, and
/// some scanner programs write the page as one strip: such a file is mapped, and the parts already
/// decoded are released.
enum class TiffAccess { read, map };

class TiffFile {
 public:
  /// Throws Error when there is no sound first page.
  TiffFile(const InputFile& file, const Place& place, TiffAccess access);
  TiffFile(const TiffFile&) = delete;
  TiffFile& operator=(const TiffFile&) = delete;

  TIFF* get() const { return tiff_.get(); }
  const Place& place() const { return place_; }
  void set_place(const Place& place) { place_ = place; }

  /// From here on warnings count as damage too. Those of a directory are about odd tags and cost
  /// nothing; while pixels are decoded they are about pixels that had to be invented.
  void expect_pixels() { strict_ = true; }
  /// Throws Error when libtiff complained.
  void check() const;
  /// Throws Error with libtiff's complaint, or with `otherwise` when it made none.
  [[noreturn]] void fail(const std::string& otherwise) const;

  /// Gives back the memory of the mapped file; it is read anew when needed.
  void release_mapped() const;

 private:
  struct Stream;
  struct Closer {
    void operator()(TIFF* t) const { TIFFClose(t); }
  };
  static int on_error(TIFF*, void* self, const char* module, const char* format, va_list list);
  static int on_warning(TIFF*, void* self, const char* module, const char* format, va_list list);
  void complain(const char* format, va_list list);

  struct Mapping {
    int descriptor = -1;
    std::int64_t size = 0;
    std::int64_t position = 0;
    void* start = nullptr;
  };

  Place place_;
  Mapping stream_;
  bool strict_ = false;
  bool complained_ = false;
  std::array<char, 200> complaint_{};
  std::unique_ptr<TIFF, Closer> tiff_;
};

}  // namespace versolay::scan
