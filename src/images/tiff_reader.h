// TIFF files, read by libtiff.
#pragma once

#include <tiffio.h>

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "images/picture_error.h"

namespace versolay::images {

bool looks_like_tiff(std::string_view bytes);

/// How the strips of a file come into memory. libtiff holds a whole strip as it is stored, and some
/// scanner programs write the page as one strip: such a file is mapped, and the parts already
/// decoded are released. (The price of a mapping: a disk that is pulled out meanwhile stops the
/// program and not just the read.)
enum class TiffAccess { read, map };

/// An open TIFF, whose complaints are kept instead of printed.
class TiffReader {
 public:
  /// The file stays with the caller, and may have several readers. Throws PictureError if the
  /// first directory is missing or damaged.
  TiffReader(int descriptor, std::int64_t size, TiffAccess access);
  /// The bytes must outlive this. Throws PictureError, likewise.
  explicit TiffReader(std::string_view bytes);
  TiffReader(const TiffReader&) = delete;
  TiffReader& operator=(const TiffReader&) = delete;

  TIFF* get() const { return tiff_.get(); }
  /// A tag of this type, or its default; `otherwise` where it has none.
  template <class T>
  T field(std::uint32_t tag, T otherwise = {}) const {
    T value{};
    return TIFFGetFieldDefaulted(tiff_.get(), tag, &value) == 1 ? value : otherwise;
  }

  /// Where the directories of the pictures begin; previews and masks do not count. Walked once:
  /// libtiff goes to directory number n by way of all before it. Of more than `most`, one more.
  std::vector<toff_t> picture_directories(std::size_t most);

  /// From here on warnings count as damage too. Those of a directory are about odd tags and cost
  /// nothing (but for a palette that is cut off); while pixels are decoded they are about pixels
  /// that had to be invented. (Not so: codes of old writers, palettes of 8 bits.)
  void expect_pixels() { strict_ = true; }
  /// Throws PictureError when libtiff complained.
  void check() const { require(true); }
  /// The same, and when `ok` is false.
  void require(bool ok) const {
    if (!ok || complained_) fail("it cannot be decoded");
  }
  /// Throws PictureError with libtiff's complaint, or with `otherwise` when it made none.
  [[noreturn]] void fail(const std::string& otherwise) const;

  /// Gives back the memory of a mapped file; it is read again when needed.
  void release_mapped() const;

 private:
  // The file as libtiff sees it; the callbacks of libtiff are its functions.
  struct Stream {
    int descriptor = -1;          // or
    const char* bytes = nullptr;  // this
    std::int64_t size = 0;
    std::int64_t position = 0;  // its own, so that several readers may share a descriptor
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
  void open(const char* mode);

  Stream stream_;
  bool strict_ = false;
  bool complained_ = false;
  std::array<char, 200> complaint_{};
  std::unique_ptr<TIFF, Closer> tiff_;
};

/// What a directory says of its pixels.
struct TiffLayout {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::uint16_t bits = 1;
  std::uint16_t samples = 1;  // of a pixel, extra ones included
  std::uint16_t photometric = PHOTOMETRIC_MINISBLACK;
  std::uint16_t compression = COMPRESSION_NONE;
  std::uint16_t sample_format = SAMPLEFORMAT_UINT;
  std::uint16_t orientation = ORIENTATION_TOPLEFT;
  bool tiled = false;
  bool planar = false;         // one plane for each sample
  bool alpha = false;          // the sample after the colours is alpha
  bool premultiplied = false;  // the colours were multiplied by it
  double ppi_x = 0.0;          // 0: not said
  double ppi_y = 0.0;

  bool is_grey() const {
    return photometric == PHOTOMETRIC_MINISBLACK || photometric == PHOTOMETRIC_MINISWHITE;
  }
  bool is_colour() const { return photometric == PHOTOMETRIC_RGB; }
  /// Of the kinds that are read sample by sample: grey, palettes, RGB and CMYK.
  std::size_t colours() const {
    return is_colour() ? 3 : photometric == PHOTOMETRIC_SEPARATED ? 4 : 1;
  }
  std::size_t samples_used() const { return colours() + (alpha ? 1 : 0); }
};
/// The layout of the reader's current directory. Where the photometric interpretation is missing
/// (the standard requires it), it is inferred from compression and number of samples: some fax
/// programs omit it and mean black on white.
TiffLayout layout_of(const TiffReader& tiff);

}  // namespace versolay::images
