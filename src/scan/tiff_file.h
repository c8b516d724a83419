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
/// decoded are released. (The price of a mapping: a disk that is pulled out meanwhile stops the
/// program and not just the read.)
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
  // The file as libtiff sees it; the callbacks of libtiff are its functions.
  struct Stream {
    int descriptor = -1;
    std::int64_t size = 0;
    std::int64_t position = 0;  // its own, so that several TIFF handles may share a descriptor
    void* mapped = nullptr;

    static Stream& of(thandle_t handle) { return *static_cast<Stream*>(handle); }
    static tmsize_t read(thandle_t handle, void* buffer, tmsize_t size);
    static tmsize_t write(thandle_t, void*, tmsize_t) { return 0; }
    static toff_t seek(thandle_t handle, toff_t offset, int whence);
    static int close(thandle_t) { return 0; }
    static toff_t length(thandle_t handle) { return static_cast<toff_t>(of(handle).size); }
    static int map(thandle_t handle, void** base, toff_t* size);
    static void unmap(thandle_t handle, void* base, toff_t size);
  };
  struct Closer {
    void operator()(TIFF* t) const { TIFFClose(t); }
  };
  static int on_error(TIFF*, void* self, const char* module, const char* format, va_list list);
  static int on_warning(TIFF*, void* self, const char* module, const char* format, va_list list);
  void complain(const char* format, va_list list);

  Place place_;
  Stream stream_;
  bool strict_ = false;
  bool complained_ = false;
  std::array<char, 200> complaint_{};
  std::unique_ptr<TIFF, Closer> tiff_;
};

}  // namespace versolay::scan
