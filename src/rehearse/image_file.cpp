#include "rehearse/image_file.h"

#include <cstdio>
// jpeglib.h needs the FILE of cstdio before it, tiffio.hxx what tiffio.h defines.
#include <jpeglib.h>
#include <png.h>
#include <tiffio.h>
//
#include <algorithm>
#include <cmath>
#include <csetjmp>
#include <cstdlib>
#include <memory>
#include <new>
#include <optional>
#include <sstream>
#include <tiffio.hxx>

#include "rehearse/findings.h"
#include "versolay/result.h"

namespace versolay::rehearse {
namespace {

constexpr double kMetresPerInch = 0.0254;

std::size_t row_bytes(const ScanImage& image) {
  return static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.channels);
}

const std::uint8_t* row(const ScanImage& image, int y) {
  return image.bytes.data() + static_cast<std::size_t>(y) * row_bytes(image);
}

/// libpng and libjpeg leave by longjmp when they fail. Nothing with a destructor may live between
/// the setjmp of write() and what can jump.
class PngEncoder {
 public:
  PngEncoder() {
    png_ = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, fail, ignore);
    info_ = png_ != nullptr ? png_create_info_struct(png_) : nullptr;
    if (info_ == nullptr) {
      png_destroy_write_struct(&png_, nullptr);
      throw std::bad_alloc();
    }
    png_set_write_fn(png_, &bytes, append, nullptr);
  }
  PngEncoder(const PngEncoder&) = delete;
  PngEncoder& operator=(const PngEncoder&) = delete;
  ~PngEncoder() { png_destroy_write_struct(&png_, &info_); }

  bool write(const ScanImage& image, double dpi) {
    if (setjmp(png_jmpbuf(png_)) != 0) return false;
    png_set_IHDR(png_, info_, static_cast<png_uint_32>(image.width),
                 static_cast<png_uint_32>(image.height), 8,
                 image.channels == 1 ? PNG_COLOR_TYPE_GRAY : PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_set_compression_level(png_, 1);  // noise does not get smaller with effort
    png_set_filter(png_, PNG_FILTER_TYPE_BASE, PNG_FILTER_SUB);
    if (dpi > 0) {
      const auto per_metre = static_cast<png_uint_32>(std::lround(dpi / kMetresPerInch));
      png_set_pHYs(png_, info_, per_metre, per_metre, PNG_RESOLUTION_METER);
    }
    png_write_info(png_, info_);
    if (image.channels == 3) png_set_bgr(png_);
    for (int y = 0; y < image.height; ++y) png_write_row(png_, row(image, y));
    png_write_end(png_, nullptr);
    return true;
  }

  std::string bytes;

 private:
  static void append(png_structp png, png_bytep from, png_size_t count) {
    static_cast<std::string*>(png_get_io_ptr(png))->append(reinterpret_cast<char*>(from), count);
  }
  static void fail(png_structp png, png_const_charp) { png_longjmp(png, 1); }
  static void ignore(png_structp, png_const_charp) {}

  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

class JpegEncoder {
 public:
  JpegEncoder() {
    jpeg_.err = jpeg_std_error(&errors_.base);
    errors_.base.error_exit = fail;
    errors_.base.output_message = [](j_common_ptr) {};
  }
  JpegEncoder(const JpegEncoder&) = delete;
  JpegEncoder& operator=(const JpegEncoder&) = delete;
  ~JpegEncoder() {
    jpeg_destroy_compress(&jpeg_);
    std::free(memory_);
  }

  bool write(const ScanImage& image, int quality, double dpi) {
    if (setjmp(errors_.back) != 0) return false;
    jpeg_create_compress(&jpeg_);
    jpeg_mem_dest(&jpeg_, &memory_, &size_);
    jpeg_.image_width = static_cast<JDIMENSION>(image.width);
    jpeg_.image_height = static_cast<JDIMENSION>(image.height);
    jpeg_.input_components = image.channels;
    jpeg_.in_color_space = image.channels == 1 ? JCS_GRAYSCALE : JCS_EXT_BGR;
    jpeg_set_defaults(&jpeg_);
    jpeg_set_quality(&jpeg_, quality, TRUE);
    if (dpi > 0) {
      jpeg_.density_unit = 1;  // dots per inch
      jpeg_.X_density = jpeg_.Y_density = static_cast<UINT16>(std::lround(dpi));
    }
    jpeg_start_compress(&jpeg_, TRUE);
    while (jpeg_.next_scanline < jpeg_.image_height) {
      JSAMPROW line = const_cast<JSAMPROW>(row(image, static_cast<int>(jpeg_.next_scanline)));
      jpeg_write_scanlines(&jpeg_, &line, 1);
    }
    jpeg_finish_compress(&jpeg_);
    return true;
  }

  std::string bytes() const { return {reinterpret_cast<const char*>(memory_), size_}; }

 private:
  struct Errors {
    jpeg_error_mgr base;
    std::jmp_buf back;
  };
  static void fail(j_common_ptr jpeg) {
    std::longjmp(reinterpret_cast<Errors*>(jpeg->err)->back, 1);
  }

  jpeg_compress_struct jpeg_{};
  Errors errors_{};
  unsigned char* memory_ = nullptr;
  unsigned long size_ = 0;
};

/// LZW, as scanners write it. nullopt when libtiff cannot.
std::optional<std::string> tiff_bytes(const ScanImage& image, double dpi) {
  std::ostringstream stream;
  {
    const std::unique_ptr<TIFF, void (*)(TIFF*)> tiff(TIFFStreamOpen("scan", &stream), TIFFClose);
    if (!tiff) return std::nullopt;
    TIFFSetField(tiff.get(), TIFFTAG_IMAGEWIDTH, image.width);
    TIFFSetField(tiff.get(), TIFFTAG_IMAGELENGTH, image.height);
    TIFFSetField(tiff.get(), TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff.get(), TIFFTAG_SAMPLESPERPIXEL, image.channels);
    TIFFSetField(tiff.get(), TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff.get(), TIFFTAG_PHOTOMETRIC,
                 image.channels == 1 ? PHOTOMETRIC_MINISBLACK : PHOTOMETRIC_RGB);
    TIFFSetField(tiff.get(), TIFFTAG_COMPRESSION, COMPRESSION_LZW);
    TIFFSetField(tiff.get(), TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
    TIFFSetField(tiff.get(), TIFFTAG_ROWSPERSTRIP, TIFFDefaultStripSize(tiff.get(), 0));
    TIFFSetField(tiff.get(), TIFFTAG_RESOLUTIONUNIT, dpi > 0 ? RESUNIT_INCH : RESUNIT_NONE);
    if (dpi > 0) {
      TIFFSetField(tiff.get(), TIFFTAG_XRESOLUTION, std::round(dpi));
      TIFFSetField(tiff.get(), TIFFTAG_YRESOLUTION, std::round(dpi));
    }
    std::vector<std::uint8_t> line(row_bytes(image));  // the predictor works in place
    for (int y = 0; y < image.height; ++y) {
      std::copy_n(row(image, y), line.size(), line.begin());
      if (image.channels == 3) {
        for (std::size_t x = 0; x < line.size(); x += 3) std::swap(line[x], line[x + 2]);
      }
      if (TIFFWriteScanline(tiff.get(), line.data(), static_cast<std::uint32_t>(y)) < 0) {
        return std::nullopt;
      }
    }
  }
  return std::move(stream).str();
}

std::optional<std::string> encoded(const ScanImage& image, ImageKind kind, int jpeg_quality,
                                   double dpi) {
  if (kind == ImageKind::tiff) return tiff_bytes(image, dpi);
  if (kind == ImageKind::jpeg) {
    JpegEncoder jpeg;
    if (!jpeg.write(image, jpeg_quality, dpi)) return std::nullopt;
    return jpeg.bytes();
  }
  PngEncoder png;
  if (!png.write(image, dpi)) return std::nullopt;
  return std::move(png.bytes);
}

}  // namespace

std::string extension(ImageKind kind) {
  if (kind == ImageKind::png) return ".png";
  return kind == ImageKind::jpeg ? ".jpg" : ".tif";
}

std::string encode(const ScanImage& image, ImageKind kind, int jpeg_quality, double dpi) {
  auto bytes = encoded(image, kind, jpeg_quality, dpi);
  if (!bytes) {
    throw Error("", findings::picture_not_written(image.width, image.height, extension(kind)));
  }
  return std::move(*bytes);
}

}  // namespace versolay::rehearse
