// JPEG, row by row into the grey plane. Only the luma plane is decoded.
#include <cstdio>
// jpeglib.h needs the FILE of cstdio before it.
#include <jerror.h>
#include <jpeglib.h>

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstring>
#include <string_view>

#include "core/translation.h"
#include "images/exif.h"
#include "scan/decoders.h"

namespace versolay::scan {
namespace {

/// No block of 8 x 8 pixels takes less than one bit (an empty block of a progressive scan), and
/// chroma takes some: fewer bytes than this cannot hold the image. Arithmetic coding can do better.
constexpr std::int64_t kMostPixelsPerByte = 64 * 8 * 2;

/// Real progressive files have about ten scans; every further one costs a pass over the image.
constexpr int kMostScans = 200;

constexpr int kExifMarker = JPEG_APP0 + 1;
constexpr int kRowsAtOnce = 16;

struct ErrorManager {
  jpeg_error_mgr base;  // first: libjpeg hands back a pointer to it
  std::jmp_buf escape;
  std::array<char, JMSG_LENGTH_MAX> text;
};

[[noreturn]] void on_error(j_common_ptr decoder) {
  auto* manager = reinterpret_cast<ErrorManager*>(decoder->err);
  decoder->err->format_message(decoder, manager->text.data());
  std::longjmp(manager->escape, 1);
}

// Level -1 is a warning. libjpeg then invents pixels (grey below the cut of a truncated file) and
// carries on, which must not reach a measurement.
void on_message(j_common_ptr decoder, int level) {
  if (level >= 0) return;
  const int code = decoder->err->msg_code;
  const bool in_headers = reinterpret_cast<j_decompress_ptr>(decoder)->input_scan_number == 0;
  const bool harmless = code == JWRN_JFIF_MAJOR || code == JWRN_ADOBE_XFORM ||
                        (code == JWRN_EXTRANEOUS_DATA && in_headers);
  if (!harmless) on_error(decoder);
}

void on_progress(j_common_ptr decoder) {
  const auto* d = reinterpret_cast<j_decompress_ptr>(decoder);
  if (d->input_scan_number <= kMostScans) return;
  auto* manager = reinterpret_cast<ErrorManager*>(decoder->err);
  std::snprintf(manager->text.data(), manager->text.size(), "more than %d scans", kMostScans);
  std::longjmp(manager->escape, 1);
}

/// Owns libjpeg's state. libjpeg reports errors by longjmp, which must not pass over a C++
/// destructor: every call goes through run(), whose step has no object to destroy.
class JpegReader {
 public:
  JpegReader(std::FILE* file, const Place& place) : place_(place) {
    decoder_.err = jpeg_std_error(&errors_.base);
    errors_.base.error_exit = on_error;
    errors_.base.emit_message = on_message;
    progress_.progress_monitor = on_progress;
    const auto create = [this, file](j_decompress_ptr decoder) {
      jpeg_create_decompress(decoder);
      decoder->progress = &progress_;
      jpeg_stdio_src(decoder, file);
    };
    if (!completes(create)) {
      jpeg_destroy_decompress(&decoder_);
      throw error();
    }
  }
  JpegReader(const JpegReader&) = delete;
  JpegReader& operator=(const JpegReader&) = delete;
  ~JpegReader() { jpeg_destroy_decompress(&decoder_); }

  /// step(decoder): libjpeg calls and values without destructors only.
  template <class Step>
  void run(Step step) {
    if (!completes(step)) throw error();
  }

 private:
  Error error() const {
    const std::string words = errors_.text.data();
    switch (errors_.base.msg_code) {
      case JERR_SOF_UNSUPPORTED:
      case JERR_BAD_PRECISION:
      case JERR_ARITH_NOTIMPL:
        return unsupported(place_, tr("a kind of JPEG that is not read ({})", words));
      default:
        return damaged(place_, words);
    }
  }

  template <class Step>
  bool completes(const Step& step) {
    if (setjmp(errors_.escape) != 0) return false;
    step(&decoder_);
    return true;
  }

  const Place& place_;
  ErrorManager errors_{};
  jpeg_progress_mgr progress_{};
  jpeg_decompress_struct decoder_{};
};

struct Header {
  std::int64_t width = 0;
  std::int64_t height = 0;
  J_COLOR_SPACE colours = JCS_UNKNOWN;
  bool arithmetic = false;
  double dpi_x = 0.0;
  double dpi_y = 0.0;
  int orientation = 1;
};

ExifHints exif_of(j_decompress_ptr decoder) {
  constexpr std::string_view kMagic("Exif\0\0", 6);
  for (jpeg_saved_marker_ptr m = decoder->marker_list; m != nullptr; m = m->next) {
    if (m->marker == kExifMarker && m->data_length > kMagic.size() &&
        std::memcmp(m->data, kMagic.data(), kMagic.size()) == 0) {
      return read_exif({m->data + kMagic.size(), m->data_length - kMagic.size()});
    }
  }
  return {};
}

Header read_header(j_decompress_ptr decoder) {
  jpeg_save_markers(decoder, kExifMarker, 0xffff);
  jpeg_read_header(decoder, TRUE);
  Header h;
  h.width = decoder->image_width;
  h.height = decoder->image_height;
  h.colours = decoder->jpeg_color_space;
  h.arithmetic = decoder->arith_code != FALSE;
  const ExifHints exif = exif_of(decoder);
  h.orientation = exif.orientation;
  h.dpi_x = exif.dpi_x;
  h.dpi_y = exif.dpi_y;
  // JFIF density_unit: 1 per inch, 2 per centimetre, 0 an aspect ratio only (ITU-T T.871, 10.1).
  if (decoder->saw_JFIF_marker != FALSE && decoder->density_unit != 0) {
    const double per_inch = decoder->density_unit == 2 ? 2.54 : 1.0;
    h.dpi_x = decoder->X_density * per_inch;
    h.dpi_y = decoder->Y_density * per_inch;
  }
  return h;
}

void check_colours(const Place& place, const Header& h) {
  if (h.colours == JCS_CMYK || h.colours == JCS_YCCK) {
    throw unsupported(place,
                      tr("in CMYK colours, the inks of a press and not the light of a scan"));
  }
  if (h.colours != JCS_GRAYSCALE && h.colours != JCS_YCbCr && h.colours != JCS_RGB) {
    throw unsupported(place, tr("a JPEG of an unknown kind of colours"));
  }
}

void read_rows(j_decompress_ptr decoder, GreyImage& plane) {
  decoder->out_color_space = JCS_GRAYSCALE;
  jpeg_start_decompress(decoder);
  std::array<JSAMPROW, kRowsAtOnce> rows;
  while (decoder->output_scanline < decoder->output_height) {
    const JDIMENSION left = decoder->output_height - decoder->output_scanline;
    const JDIMENSION n = std::min<JDIMENSION>(left, kRowsAtOnce);
    for (JDIMENSION i = 0; i < n; ++i) {
      rows[i] = plane.row(static_cast<int>(decoder->output_scanline + i));
    }
    jpeg_read_scanlines(decoder, rows.data(), n);
  }
  jpeg_finish_decompress(decoder);  // reads on to the end marker
}

}  // namespace

Scan decode_jpeg(const InputFile& file, const Place& place, const ScanLimits& limits, Hints hints) {
  JpegReader reader(file.handle(), place);
  Header h;
  reader.run([&](j_decompress_ptr decoder) { h = read_header(decoder); });
  check_size(place, h.width, h.height, 24, limits);
  check_colours(place, h);
  if (!h.arithmetic && h.width * h.height / kMostPixelsPerByte > file.size()) {
    throw damaged(place, tr("too short for its {} x {} pixels", h.width, h.height));
  }

  Scan scan = scan_of(place);
  add_plane(scan, place, static_cast<int>(h.width), static_cast<int>(h.height), limits);
  reader.run([&](j_decompress_ptr decoder) { read_rows(decoder, scan.grey); });
  if (hints == Hints::ignore) return scan;
  set_dpi(scan, h.dpi_x, h.dpi_y);
  undo_mirror(scan, h.orientation);
  return scan;
}

}  // namespace versolay::scan
