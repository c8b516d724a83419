#include "artwork/jpeg_file.h"

// jpeglib.h needs size_t and FILE to be known.
#include <cstddef>
#include <cstdio>
//
#include <jerror.h>
#include <jpeglib.h>

#include <csetjmp>
#include <cstring>
#include <map>
#include <vector>

#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "core/translation.h"
#include "images/exif.h"
#include "versolay/result.h"

namespace versolay {
namespace {

// Marker codes: ITU-T T.81, table B.1.
constexpr int kEndOfImage = 0xD9;
constexpr int kStartOfScan = 0xDA;
constexpr int kRestartInterval = 0xDD;
constexpr int kFirstRestart = 0xD0;
constexpr int kLastRestart = 0xD7;
constexpr int kApp1 = JPEG_APP0 + 1;
constexpr int kApp2 = JPEG_APP0 + 2;

Error damaged(const std::string& file, const std::string& how) {
  return Error(file, tr("is a damaged JPEG ({}). Export or copy it again", how));
}

int byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

/// The coded data of all scans, from marker to marker: nothing is decoded. In coded data a byte FF
/// is followed by 00, or is a marker.
/// Source  ITU-T T.81, B.1.1.2 (markers), B.1.1.5 (coded data), E.1.4 (restart markers).
class Scans {
 public:
  Scans(std::string_view bytes, const std::string& file) : bytes_(bytes), file_(file) {}

  /// @param at  the first byte of the coded data of the first scan.
  /// @param restarts  whether restart markers were announced before it.
  void check(std::size_t at, bool restarts) {
    restarts_ = restarts;
    at = end_of_coded_data(at);
    for (;;) {
      const int marker = marker_at(at);
      if (marker == kEndOfImage) return;
      if (marker == kRestartInterval) restarts_ = true;
      at = marker == kStartOfScan ? end_of_coded_data(segment_end(at)) : segment_end(at);
    }
  }

 private:
  [[noreturn]] void ends_early() const {
    throw damaged(file_, tr("it ends before the picture does"));
  }
  /// Skips fill bytes. @return the marker; `at` is then its second byte.
  int marker_at(std::size_t& at) const {
    if (at >= bytes_.size()) ends_early();
    if (byte_at(bytes_, at) != 0xFF) throw damaged(file_, tr("its segments are garbled"));
    while (at < bytes_.size() && byte_at(bytes_, at) == 0xFF) ++at;
    if (at >= bytes_.size()) ends_early();
    return byte_at(bytes_, at);
  }
  /// @param at  the second byte of a marker with a length.
  std::size_t segment_end(std::size_t at) const {
    if (at + 3 > bytes_.size()) ends_early();
    const std::size_t length = big_endian(bytes_, at + 1, 2);
    if (length < 2) throw damaged(file_, tr("its segments are garbled"));
    if (at + 1 + length > bytes_.size()) ends_early();
    return at + 1 + length;
  }
  /// @return the marker that ends the coded data from `at` onwards.
  std::size_t end_of_coded_data(std::size_t at) const {
    int next_restart = kFirstRestart;
    for (;;) {
      const void* found =
          at < bytes_.size() ? std::memchr(bytes_.data() + at, 0xFF, bytes_.size() - at) : nullptr;
      if (found == nullptr) ends_early();
      at = static_cast<std::size_t>(static_cast<const char*>(found) - bytes_.data());
      if (at + 1 >= bytes_.size()) ends_early();
      const int code = byte_at(bytes_, at + 1);
      if (code == 0xFF) {  // fill byte
        ++at;
      } else if (code == 0x00) {
        at += 2;
      } else if (code >= kFirstRestart && code <= kLastRestart) {
        if (!restarts_ || code != next_restart) throw damaged(file_, tr("a part of it is missing"));
        next_restart = next_restart == kLastRestart ? kFirstRestart : next_restart + 1;
        at += 2;
      } else {
        return at;
      }
    }
  }

  std::string_view bytes_;
  const std::string& file_;
  bool restarts_ = false;
};

/// libjpeg with its errors caught. What it says of the picture is what holds: it is the one that
/// decodes. Nothing with a destructor may live between setjmp and the calls that can jump.
struct Decoder {
  jpeg_decompress_struct info{};
  jpeg_error_mgr errors{};
  std::jmp_buf escape;
  char message[JMSG_LENGTH_MAX] = "";
  std::size_t first_scan = 0;  // where its coded data begins

  static void leave(j_common_ptr info) {
    auto* self = static_cast<Decoder*>(info->client_data);
    (*info->err->format_message)(info, self->message);
    std::longjmp(self->escape, 1);
  }
  /// Level -1 is a warning ("premature end of file"): the picture would be partly invented. Some
  /// warnings cost no pixel: a version or a colour transform that libjpeg does not know, and stray
  /// bytes between the segments of the headers.
  static void complain(j_common_ptr info, int level) {
    if (level >= 0) return;
    const int code = info->err->msg_code;
    const auto* self = static_cast<const Decoder*>(info->client_data);
    const bool harmless = code == JWRN_JFIF_MAJOR || code == JWRN_ADOBE_XFORM ||
                          (code == JWRN_EXTRANEOUS_DATA && self->first_scan == 0);
    if (!harmless) leave(info);
  }

  Decoder() {
    info.err = jpeg_std_error(&errors);
    errors.error_exit = &Decoder::leave;
    errors.emit_message = &Decoder::complain;
    info.client_data = this;
  }
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;
  ~Decoder() { jpeg_destroy_decompress(&info); }

  /// Reads all segments up to the first scan; false (and a message) when something is wrong.
  bool read_headers(std::string_view bytes) {
    if (setjmp(escape) != 0) return false;
    jpeg_create_decompress(&info);
    info.client_data = this;  // creation keeps it, but only by custom
    jpeg_mem_src(&info, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_save_markers(&info, kApp1, 0xFFFF);
    jpeg_save_markers(&info, kApp2, 0xFFFF);
    jpeg_read_header(&info, TRUE);
    first_scan = bytes.size() - info.src->bytes_in_buffer;
    return true;
  }

  /// Decodes the first row, for which all tables must be there and make sense, of the first scan of
  /// a progressive file.
  bool check_start() {
    if (setjmp(escape) != 0) return false;
    info.buffered_image = TRUE;  // else a progressive file would be read to its end
    jpeg_start_decompress(&info);
    jpeg_start_output(&info, 1);
    return jpeg_read_scanlines(&info, own_row(), 1) == 1;
  }

  bool start() {
    if (setjmp(escape) != 0) return false;
    info.out_color_space = info.num_components == 1 ? JCS_GRAYSCALE : JCS_RGB;
    info.dct_method = JDCT_ISLOW;
    jpeg_start_decompress(&info);
    return true;
  }

  /// @return a row of output_width * output_components samples; nullptr (and a message) when it
  ///         cannot be decoded.
  const unsigned char* read_row() {
    if (setjmp(escape) != 0) return nullptr;
    JSAMPARRAY row = own_row();
    return jpeg_read_scanlines(&info, row, 1) == 1 ? row[0] : nullptr;
  }

 private:
  /// A row as large as libjpeg says that it writes.
  JSAMPARRAY own_row() {
    if (row_ == nullptr) {
      row_ = (*info.mem->alloc_sarray)(
          reinterpret_cast<j_common_ptr>(&info), JPOOL_IMAGE,
          info.output_width * static_cast<JDIMENSION>(info.output_components), 1);
    }
    return row_;
  }
  JSAMPARRAY row_ = nullptr;
};

bool is_unsupported(const Decoder& decoder) {
  const int code = decoder.errors.msg_code;
  return code == JERR_SOF_UNSUPPORTED || code == JERR_BAD_PRECISION || code == JERR_ARITH_NOTIMPL;
}

Error unsupported(const std::string& file) {
  return Error(file, tr("is a kind of JPEG that printers cannot read (12 bit, lossless or "
                        "arithmetic). Save it as an ordinary JPEG or as PNG"));
}

std::string_view body_of(const jpeg_marker_struct& marker) {
  return {reinterpret_cast<const char*>(marker.data), marker.data_length};
}

/// The ICC profile of all APP2 segments, in their order; empty when one is missing.
/// Source  ICC.1:2022, annex B.4.
std::string icc_profile_of(const jpeg_decompress_struct& info) {
  using namespace std::string_view_literals;
  std::map<int, std::string_view> parts;
  std::size_t count = 0;
  for (const jpeg_marker_struct* m = info.marker_list; m != nullptr; m = m->next) {
    const std::string_view body = body_of(*m);
    if (m->marker != kApp2 || !body.starts_with("ICC_PROFILE\0"sv) || body.size() <= 14) continue;
    parts[static_cast<unsigned char>(body[12])] = body.substr(14);
    count = static_cast<unsigned char>(body[13]);
  }
  if (parts.size() != count) return {};
  std::string profile;
  for (const auto& [number, part] : parts) profile += part;
  return profile;
}

int orientation_of(const jpeg_decompress_struct& info) {
  using namespace std::string_view_literals;
  constexpr std::string_view kExif = "Exif\0\0"sv;
  for (const jpeg_marker_struct* m = info.marker_list; m != nullptr; m = m->next) {
    if (m->marker != kApp1 || !body_of(*m).starts_with(kExif)) continue;
    return read_exif({m->data + kExif.size(), m->data_length - kExif.size()}).orientation;
  }
  return 1;
}

/// JFIF density_unit: 1 per inch, 2 per centimetre, 0 an aspect ratio only (ITU-T T.871, 10.1).
void read_density(const jpeg_decompress_struct& info, CodedImage& image) {
  if (info.saw_JFIF_marker == FALSE || info.density_unit == 0) return;
  if (info.X_density <= 1 || info.Y_density <= 1) return;
  const double units_per_inch = info.density_unit == 2 ? 2.54 : 1.0;
  image.ppi_x = info.X_density * units_per_inch;
  image.ppi_y = info.Y_density * units_per_inch;
}

/// What the headers say, and a decoder that has read them. All markers were followed to the end.
CodedImage read_headers(Decoder& decoder, std::string_view bytes, const std::string& file) {
  if (!decoder.read_headers(bytes)) {
    if (decoder.errors.msg_code == JERR_IMAGE_TOO_BIG) {
      check_image_size(decoder.info.image_width, decoder.info.image_height, file);
    }
    throw is_unsupported(decoder) ? unsupported(file) : damaged(file, decoder.message);
  }
  const jpeg_decompress_struct& info = decoder.info;
  if (info.arith_code != FALSE) throw unsupported(file);
  check_image_size(info.image_width, info.image_height, file);
  CodedImage image;
  image.file = file;
  image.coding = PixelCoding::jpeg;
  image.width_px = static_cast<int>(info.image_width);
  image.height_px = static_cast<int>(info.image_height);
  image.components = info.num_components;
  if (image.components != 1 && image.components != 3 && image.components != 4) {
    throw Error(file, tr("has {} colour channels; grey, RGB or CMYK is needed", image.components));
  }
  read_density(info, image);
  image.orientation = orientation_of(info);
  image.icc_profile = matching_icc_profile(icc_profile_of(info), image.components);
  // Photo editors write CMYK upside down and say so with the Adobe marker.
  image.inverted = image.components == 4 && info.saw_Adobe_marker != FALSE;
  Scans(bytes, file).check(decoder.first_scan, info.restart_interval != 0);
  return image;
}

}  // namespace

bool looks_like_jpeg(std::string_view bytes) { return bytes.starts_with("\xFF\xD8\xFF"); }

CodedImage parse_jpeg(std::string bytes, const std::string& file) {
  Decoder decoder;
  CodedImage image = read_headers(decoder, bytes, file);
  if (!decoder.check_start()) throw damaged(file, decoder.message);
  image.data = std::move(bytes);
  return image;
}

Raster decode_jpeg(std::string_view bytes, const std::string& file) {
  Decoder decoder;
  CodedImage header = read_headers(decoder, bytes, file);
  if (header.components == 4) {
    throw Error(file, tr("is a CMYK image; its pixels can only be kept as they are. Write a PDF, "
                         "or save the image as RGB"));
  }
  check_pixels_to_decode(header.width_px, header.height_px, file);
  if (!decoder.start()) throw damaged(file, decoder.message);
  Raster raster;
  raster.width_px = static_cast<int>(decoder.info.output_width);
  raster.height_px = static_cast<int>(decoder.info.output_height);
  raster.channels = decoder.info.output_components;
  raster.icc_profile = std::move(header.icc_profile);
  raster.ppi_x = header.ppi_x;
  raster.ppi_y = header.ppi_y;
  const std::size_t row_samples =
      static_cast<std::size_t>(raster.width_px) * static_cast<std::size_t>(raster.channels);
  raster.samples.resize(row_samples * static_cast<std::size_t>(raster.height_px));
  auto out = raster.samples.begin();
  for (int y = 0; y < raster.height_px; ++y) {
    const unsigned char* row = decoder.read_row();
    if (row == nullptr) throw damaged(file, decoder.message);
    out = std::copy(row, row + row_samples, out);
  }
  return oriented(std::move(raster), header.orientation);
}

}  // namespace versolay
