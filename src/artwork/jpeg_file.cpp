#include "artwork/jpeg_file.h"

#include <cstring>

#include "artwork/findings.h"
#include "artwork/image_checks.h"
#include "artwork/orientation.h"
#include "images/jpeg_reader.h"
#include "versolay/result.h"

namespace versolay {
namespace {

// Marker codes: ITU-T T.81, table B.1.
constexpr int kEndOfImage = 0xD9;
constexpr int kStartOfScan = 0xDA;
constexpr int kRestartInterval = 0xDD;
constexpr int kFirstRestart = 0xD0;
constexpr int kLastRestart = 0xD7;

int byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

/// The coded data of all scans, from marker to marker: nothing is decoded. In coded data a byte FF
/// is followed by 00, or is a marker.
/// Source  ITU-T T.81, B.1.1.2 (markers), B.1.1.5 (coded data), E.1.4 (restart markers).
class Scans {
 public:
  explicit Scans(std::string_view bytes) : bytes_(bytes) {}

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
  [[noreturn]] void ends_early() const { images::damaged("it ends before the picture does"); }
  /// Skips fill bytes. @return the marker; `at` is then its second byte.
  int marker_at(std::size_t& at) const {
    if (at >= bytes_.size()) ends_early();
    if (byte_at(bytes_, at) != 0xFF) images::damaged("its segments are garbled");
    while (at < bytes_.size() && byte_at(bytes_, at) == 0xFF) ++at;
    if (at >= bytes_.size()) ends_early();
    return byte_at(bytes_, at);
  }
  /// @param at  the second byte of a marker with a length.
  std::size_t segment_end(std::size_t at) const {
    if (at + 3 > bytes_.size()) ends_early();
    const std::size_t length = big_endian(bytes_, at + 1, 2);
    if (length < 2) images::damaged("its segments are garbled");
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
        if (!restarts_ || code != next_restart) images::damaged("a part of it is missing");
        next_restart = next_restart == kLastRestart ? kFirstRestart : next_restart + 1;
        at += 2;
      } else {
        return at;
      }
    }
  }

  std::string_view bytes_;
  bool restarts_ = false;
};

/// What the headers say. All markers are followed to the end.
CodedImage checked_header(const images::JpegReader& reader, std::string_view bytes,
                          const std::string& file) {
  const images::JpegHeader& h = reader.header();
  if (h.arithmetic) {
    throw images::PictureError(images::PictureFault::unsupported, "arithmetic coding");
  }
  check_image_size(h.width_px, h.height_px, file);
  CodedImage image;
  image.file = file;
  image.coding = PixelCoding::jpeg;
  image.width_px = static_cast<int>(h.width_px);
  image.height_px = static_cast<int>(h.height_px);
  image.components = h.components;
  if (image.components != 1 && image.components != 3 && image.components != 4) {
    throw Error(file, findings::picture_channels(image.components));
  }
  if (h.ppi_x > 1 && h.ppi_y > 1) {
    image.ppi_x = h.ppi_x;
    image.ppi_y = h.ppi_y;
  }
  image.orientation = h.exif.orientation;
  image.icc_profile = matching_icc_profile(reader.icc_profile(), image.components);
  // Photo editors write CMYK upside down and say so with the Adobe marker.
  image.inverted = image.components == 4 && h.adobe;
  Scans(bytes).check(reader.first_scan(), h.announces_restarts);
  return image;
}

/// A row as large as libjpeg says that it writes; it lives as long as the decoder.
JSAMPARRAY own_row(j_decompress_ptr decoder) {
  return (*decoder->mem->alloc_sarray)(
      reinterpret_cast<j_common_ptr>(decoder), JPOOL_IMAGE,
      decoder->output_width * static_cast<JDIMENSION>(decoder->output_components), 1);
}

/// Decodes the first row, for which all tables must be there and make sense, of the first scan of a
/// progressive file.
void check_start(images::JpegReader& reader) {
  JDIMENSION rows = 0;
  reader.run([&](j_decompress_ptr decoder) {
    decoder->buffered_image = TRUE;  // else a progressive file would be read to its end
    jpeg_start_decompress(decoder);
    jpeg_start_output(decoder, 1);
    rows = jpeg_read_scanlines(decoder, own_row(decoder), 1);
  });
  if (rows != 1) images::damaged("its first row is missing");
}

Raster decode(images::JpegReader& reader, CodedImage header) {
  Raster raster;
  JSAMPARRAY row = nullptr;
  reader.run([&](j_decompress_ptr decoder) {
    decoder->out_color_space = decoder->num_components == 1 ? JCS_GRAYSCALE : JCS_RGB;
    decoder->dct_method = JDCT_ISLOW;
    jpeg_start_decompress(decoder);
    row = own_row(decoder);
    raster.width_px = static_cast<int>(decoder->output_width);
    raster.height_px = static_cast<int>(decoder->output_height);
    raster.channels = decoder->output_components;
  });
  raster.icc_profile = std::move(header.icc_profile);
  raster.ppi_x = header.ppi_x;
  raster.ppi_y = header.ppi_y;
  const std::size_t row_samples =
      static_cast<std::size_t>(raster.width_px) * static_cast<std::size_t>(raster.channels);
  raster.samples.resize(row_samples * static_cast<std::size_t>(raster.height_px));
  auto out = raster.samples.begin();
  for (int y = 0; y < raster.height_px; ++y) {
    JDIMENSION rows = 0;
    reader.run([&](j_decompress_ptr decoder) { rows = jpeg_read_scanlines(decoder, row, 1); });
    if (rows != 1) images::damaged("a row is missing");
    out = std::copy(row[0], row[0] + row_samples, out);
  }
  return oriented(std::move(raster), header.orientation);
}

}  // namespace

CodedImage parse_jpeg(std::string bytes, const std::string& file) {
  try {
    images::JpegReader reader(bytes);
    CodedImage image = checked_header(reader, bytes, file);
    check_start(reader);
    image.data = std::move(bytes);
    return image;
  } catch (const images::PictureError& fault) {
    throw in_words(fault, "JPEG", file);
  }
}

Raster decode_jpeg(std::string_view bytes, const std::string& file) {
  try {
    images::JpegReader reader(bytes);
    CodedImage header = checked_header(reader, bytes, file);
    if (header.components == 4) {
      throw Error(file, findings::picture_cmyk());
    }
    check_pixels_to_decode(header.width_px, header.height_px, file);
    return decode(reader, std::move(header));
  } catch (const images::PictureError& fault) {
    throw in_words(fault, "JPEG", file);
  }
}

}  // namespace versolay
