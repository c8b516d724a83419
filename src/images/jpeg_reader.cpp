#include "images/jpeg_reader.h"

#include <jerror.h>

#include <cstdlib>
#include <memory>

namespace versolay::images {
namespace {

using namespace std::string_view_literals;

constexpr int kMostScans = 200;
constexpr int kExifMarker = JPEG_APP0 + 1;
constexpr int kIccMarker = JPEG_APP0 + 2;

std::string_view body_of(const jpeg_marker_struct& marker) {
  return {reinterpret_cast<const char*>(marker.data), marker.data_length};
}

ExifHints exif_of(const jpeg_decompress_struct& decoder) {
  constexpr std::string_view kMagic = "Exif\0\0"sv;
  for (const jpeg_marker_struct* m = decoder.marker_list; m != nullptr; m = m->next) {
    if (m->marker != kExifMarker || !body_of(*m).starts_with(kMagic)) continue;
    return read_exif({m->data + kMagic.size(), m->data_length - kMagic.size()});
  }
  return {};
}

JpegHeader header_of(const jpeg_decompress_struct& decoder) {
  JpegHeader h;
  h.width_px = decoder.image_width;
  h.height_px = decoder.image_height;
  h.components = decoder.num_components;
  h.colours = decoder.jpeg_color_space;
  h.arithmetic = decoder.arith_code != FALSE;
  h.adobe = decoder.saw_Adobe_marker != FALSE;
  h.exif = exif_of(decoder);
  // JFIF density_unit: 1 per inch, 2 per centimetre, 0 an aspect ratio only (ITU-T T.871, 10.1).
  if (decoder.saw_JFIF_marker != FALSE && decoder.density_unit != 0) {
    const double per_inch = decoder.density_unit == 2 ? 2.54 : 1.0;
    h.ppi_x = decoder.X_density * per_inch;
    h.ppi_y = decoder.Y_density * per_inch;
  }
  return h;
}

}  // namespace

bool looks_like_jpeg(std::string_view bytes) { return bytes.starts_with("\xFF\xD8\xFF"); }

JpegReader::JpegReader(std::FILE* file) {
  open([file](j_decompress_ptr decoder) { jpeg_stdio_src(decoder, file); });
}

JpegReader::JpegReader(std::string_view bytes) {
  open([bytes](j_decompress_ptr decoder) {
    jpeg_mem_src(decoder, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  });
}

template <class Source>
void JpegReader::open(const Source& source) {
  decoder_.err = jpeg_std_error(&errors_.base);
  errors_.base.error_exit = on_error;
  errors_.base.emit_message = on_message;
  errors_.allow_stray_bytes = true;  // between the headers
  progress_.progress_monitor = on_progress;
  const bool read = completes([&](j_decompress_ptr decoder) {
    jpeg_create_decompress(decoder);
    decoder->progress = &progress_;
    source(decoder);
    jpeg_save_markers(decoder, kExifMarker, 0xFFFF);
    jpeg_save_markers(decoder, kIccMarker, 0xFFFF);
    jpeg_read_header(decoder, TRUE);
  });
  if (!read) {  // no destructor runs for an object that was not made
    const PictureError failed = error();
    jpeg_destroy_decompress(&decoder_);
    throw failed;
  }
  errors_.allow_stray_bytes = false;
  header_ = header_of(decoder_);
}

std::string JpegReader::icc_profile() {
  JOCTET* bytes = nullptr;
  unsigned size = 0;
  const bool read =
      completes([&](j_decompress_ptr decoder) { jpeg_read_icc_profile(decoder, &bytes, &size); });
  const std::unique_ptr<JOCTET, void (*)(void*)> owner(bytes, std::free);
  return read && bytes != nullptr ? std::string(bytes, bytes + size) : std::string();
}

void JpegReader::on_error(j_common_ptr decoder) {
  auto* errors = reinterpret_cast<Errors*>(decoder->err);
  decoder->err->format_message(decoder, errors->text.data());
  std::longjmp(errors->escape, 1);
}

// Level -1 is a warning.
void JpegReader::on_message(j_common_ptr decoder, int level) {
  if (level >= 0) return;
  const int code = decoder->err->msg_code;
  const bool harmless =
      code == JWRN_JFIF_MAJOR || code == JWRN_ADOBE_XFORM ||
      (code == JWRN_EXTRANEOUS_DATA && reinterpret_cast<Errors*>(decoder->err)->allow_stray_bytes);
  if (!harmless) on_error(decoder);
}

void JpegReader::on_progress(j_common_ptr decoder) {
  if (reinterpret_cast<j_decompress_ptr>(decoder)->input_scan_number <= kMostScans) return;
  auto* errors = reinterpret_cast<Errors*>(decoder->err);
  std::snprintf(errors->text.data(), errors->text.size(), "more than %d scans", kMostScans);
  std::longjmp(errors->escape, 1);
}

PictureError JpegReader::error() const {
  const std::string words = errors_.text.data();
  switch (errors_.base.msg_code) {
    case JERR_SOF_UNSUPPORTED:
    case JERR_BAD_PRECISION:
    case JERR_ARITH_NOTIMPL:
      return {PictureFault::unsupported, words};
    case JERR_IMAGE_TOO_BIG:
      return {PictureFault::too_large, words};
    default:
      return {PictureFault::damaged, words};
  }
}

}  // namespace versolay::images
