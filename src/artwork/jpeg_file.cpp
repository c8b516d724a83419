#include "artwork/jpeg_file.h"

// jpeglib.h needs size_t and FILE to be known.
#include <cstddef>
#include <cstdio>
//
#include <jpeglib.h>

#include <csetjmp>
#include <cstring>
#include <map>
#include <vector>

#include "artwork/image_checks.h"
#include "core/translation.h"
#include "versolay/result.h"

namespace versolay {
namespace {

// Marker codes: ITU-T T.81, table B.1.
constexpr int kStartOfImage = 0xD8;
constexpr int kStartOfScan = 0xDA;
constexpr int kEndOfImage = 0xD9;
constexpr int kRestartInterval = 0xDD;
constexpr int kFirstRestart = 0xD0;
constexpr int kLastRestart = 0xD7;
constexpr int kApp0 = 0xE0;
constexpr int kApp1 = 0xE1;
constexpr int kApp2 = 0xE2;
constexpr int kApp14 = 0xEE;

Error damaged(const std::string& file, const std::string& how) {
  return Error(file, tr("is a damaged JPEG ({}). Export or copy it again", how));
}

bool is_frame(int marker) {
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/// The orientation tag of an EXIF block (after "Exif\0\0"); 1 when it has none that makes sense.
/// Source  CIPA DC-008 (EXIF): a TIFF header, then IFD0; tag 0x0112, one SHORT.
int exif_orientation(std::string_view tiff) {
  if (tiff.size() < 14) return 1;
  const bool little = tiff.starts_with("II");
  if (!little && !tiff.starts_with("MM")) return 1;
  const auto number = [&](std::size_t at, int count) {
    std::uint32_t value = 0;
    for (int i = 0; i < count; ++i) {
      const int place = little ? count - 1 - i : i;
      value = value << 8 | static_cast<unsigned char>(tiff[at + static_cast<std::size_t>(place)]);
    }
    return value;
  };
  const std::size_t directory = number(4, 4);
  if (directory + 2 > tiff.size()) return 1;
  const std::size_t entries = number(directory, 2);
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t at = directory + 2 + 12 * i;
    if (at + 12 > tiff.size()) return 1;
    if (number(at, 2) != 0x0112) continue;
    const std::uint32_t value = number(at + 8, 2);
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
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

  /// @param at  the marker of the first scan.
  void check(std::size_t at) {
    for (;;) {
      const int marker = marker_at(at);
      if (marker == kEndOfImage) return;
      if (marker == kRestartInterval) restarts_ = true;
      at = marker == kStartOfScan ? end_of_coded_data(segment_end(at)) : segment_end(at);
    }
  }

  /// Restart markers may also be announced before the first scan.
  void expect_restarts() { restarts_ = true; }

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

/// Reads the segments up to the first scan.
class Headers {
 public:
  Headers(std::string_view bytes, CodedImage& image) : bytes_(bytes), image_(image) {}

  /// @return the place of the first scan.
  std::size_t read() {
    std::size_t at = 2;
    bool have_frame = false;
    for (;;) {
      if (at + 4 > bytes_.size()) throw damaged(image_.file, tr("it ends inside its headers"));
      if (byte(at) != 0xFF) throw damaged(image_.file, tr("its headers are garbled"));
      const int marker = byte(at + 1);
      if (marker == 0xFF) {  // fill byte
        ++at;
        continue;
      }
      const std::size_t length = big_endian(bytes_, at + 2, 2);
      if (length < 2 || at + 2 + length > bytes_.size()) {
        throw damaged(image_.file, tr("it ends inside its headers"));
      }
      const std::string_view body = bytes_.substr(at + 4, length - 2);
      if (is_frame(marker)) {
        frame(marker, body);
        have_frame = true;
      }
      if (marker == kRestartInterval) restarts_ = true;
      application(marker, body);
      if (marker == kStartOfScan) break;
      at += 2 + length;
    }
    if (!have_frame) throw damaged(image_.file, tr("it has no picture size"));
    finish();
    return at;
  }

  bool announces_restarts() const { return restarts_; }

 private:
  int byte(std::size_t at) const { return byte_at(bytes_, at); }

  void frame(int marker, std::string_view body) {
    if (body.size() < 6) throw damaged(image_.file, tr("its picture size is cut short"));
    if (marker > 0xC2 || body[0] != 8) {
      throw Error(image_.file, tr("is a kind of JPEG that printers cannot read (12 bit, lossless "
                                  "or arithmetic). Save it as an ordinary JPEG or as PNG"));
    }
    image_.height_px = static_cast<int>(big_endian(body, 1, 2));
    image_.width_px = static_cast<int>(big_endian(body, 3, 2));
    image_.components = static_cast<unsigned char>(body[5]);
    check_image_size(static_cast<std::uint64_t>(image_.width_px),
                     static_cast<std::uint64_t>(image_.height_px), image_.file);
    if (image_.components != 1 && image_.components != 3 && image_.components != 4) {
      throw Error(image_.file,
                  tr("has {} colour channels; grey, RGB or CMYK is needed", image_.components));
    }
  }

  void application(int marker, std::string_view body) {
    using namespace std::string_view_literals;
    if (marker == kApp0 && body.starts_with("JFIF\0"sv) && body.size() >= 12) {
      density(body);
    } else if (marker == kApp1 && body.starts_with("Exif\0\0"sv)) {
      image_.orientation = exif_orientation(body.substr(6));
    } else if (marker == kApp2 && body.starts_with("ICC_PROFILE\0"sv) && body.size() > 14) {
      icc_parts_[static_cast<unsigned char>(body[12])] = body.substr(14);
      icc_count_ = static_cast<unsigned char>(body[13]);
    } else if (marker == kApp14 && body.starts_with("Adobe"sv)) {
      adobe_ = true;
    }
  }

  void density(std::string_view jfif) {
    const int unit = jfif[7];
    const double per_cm = unit == 2 ? 2.54 : 1.0;
    if (unit != 1 && unit != 2) return;
    const double x = big_endian(jfif, 8, 2) * per_cm;
    const double y = big_endian(jfif, 10, 2) * per_cm;
    if (x > 1 && y > 1) {
      image_.ppi_x = x;
      image_.ppi_y = y;
    }
  }

  void finish() {
    std::string profile;
    for (const auto& [number, part] : icc_parts_) profile += part;
    if (icc_parts_.size() == icc_count_) {
      image_.icc_profile = matching_icc_profile(std::move(profile), image_.components);
    }
    // Photo editors of the Adobe family write CMYK upside down and say so with this marker.
    image_.inverted = image_.components == 4 && adobe_;
  }

  std::string_view bytes_;
  CodedImage& image_;
  std::map<int, std::string_view> icc_parts_;
  std::size_t icc_count_ = 0;
  bool adobe_ = false;
  bool restarts_ = false;
};

/// libjpeg with its errors and warnings caught. Nothing with a destructor may live between
/// setjmp and the calls that can jump.
struct Decoder {
  jpeg_decompress_struct info{};
  jpeg_error_mgr errors{};
  std::jmp_buf escape;
  char message[JMSG_LENGTH_MAX] = "";

  static void leave(j_common_ptr info) {
    auto* self = static_cast<Decoder*>(info->client_data);
    (*info->err->format_message)(info, self->message);
    std::longjmp(self->escape, 1);
  }
  /// Level -1 is a warning ("premature end of file"): the picture would be partly invented.
  static void complain(j_common_ptr info, int level) {
    if (level < 0) leave(info);
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

  /// Decodes the first row, for which all tables must be there and make sense, of the first scan of
  /// a progressive file; false (and a message) when something is wrong with it.
  bool check_start(std::string_view bytes, unsigned char* row) {
    if (setjmp(escape) != 0) return false;
    open(bytes);
    info.buffered_image = TRUE;  // else a progressive file would be read to its end
    jpeg_start_decompress(&info);
    jpeg_start_output(&info, 1);
    return jpeg_read_scanlines(&info, &row, 1) == 1;
  }

  bool start(std::string_view bytes) {
    if (setjmp(escape) != 0) return false;
    open(bytes);
    info.out_color_space = info.num_components == 1 ? JCS_GRAYSCALE : JCS_RGB;
    info.dct_method = JDCT_ISLOW;
    jpeg_start_decompress(&info);
    return true;
  }

  bool read_row(unsigned char* row) {
    if (setjmp(escape) != 0) return false;
    return jpeg_read_scanlines(&info, &row, 1) == 1;
  }

 private:
  void open(std::string_view bytes) {
    jpeg_create_decompress(&info);
    info.client_data = this;  // creation keeps it, but only by custom
    jpeg_mem_src(&info, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_read_header(&info, TRUE);
  }
};

CodedImage read_headers(std::string_view bytes, const std::string& file) {
  CodedImage image;
  image.file = file;
  image.coding = PixelCoding::jpeg;
  Headers headers(bytes, image);
  const std::size_t first_scan = headers.read();
  Scans scans(bytes, file);
  if (headers.announces_restarts()) scans.expect_restarts();
  scans.check(first_scan);
  return image;
}

}  // namespace

bool looks_like_jpeg(std::string_view bytes) {
  return bytes.size() >= 3 && static_cast<unsigned char>(bytes[0]) == 0xFF &&
         static_cast<unsigned char>(bytes[1]) == kStartOfImage &&
         static_cast<unsigned char>(bytes[2]) == 0xFF;
}

CodedImage parse_jpeg(std::string bytes, const std::string& file) {
  CodedImage image = read_headers(bytes, file);
  std::vector<unsigned char> row(static_cast<std::size_t>(image.width_px) *
                                 static_cast<std::size_t>(image.components));
  Decoder decoder;
  if (!decoder.check_start(bytes, row.data())) throw damaged(file, decoder.message);
  image.data = std::move(bytes);
  return image;
}

Raster decode_jpeg(std::string_view bytes, const std::string& file) {
  const CodedImage header = read_headers(bytes, file);
  if (header.components == 4) {
    throw Error(file, tr("is a CMYK image; its pixels can only be kept as they are. Write a PDF, "
                         "or save the image as RGB"));
  }
  Raster raster;
  raster.width_px = header.width_px;
  raster.height_px = header.height_px;
  raster.channels = header.components;
  raster.icc_profile = header.icc_profile;
  raster.ppi_x = header.ppi_x;
  raster.ppi_y = header.ppi_y;
  const std::size_t row_samples =
      static_cast<std::size_t>(header.width_px) * static_cast<std::size_t>(header.components);
  raster.samples.resize(row_samples * static_cast<std::size_t>(header.height_px));
  std::vector<unsigned char> row(row_samples);
  Decoder decoder;
  if (!decoder.start(bytes)) throw damaged(file, decoder.message);
  auto out = raster.samples.begin();
  for (int y = 0; y < raster.height_px; ++y) {
    if (!decoder.read_row(row.data())) throw damaged(file, decoder.message);
    out = std::copy(row.begin(), row.end(), out);
  }
  return raster;
}

}  // namespace versolay
