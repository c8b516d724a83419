#include "rehearse/image_file.h"

#include <cmath>
#include <opencv2/imgcodecs.hpp>

#include "core/translation.h"
#include "versolay/result.h"

namespace versolay::rehearse {
namespace {

std::string big_endian(std::uint32_t value, int bytes) {
  std::string text;
  for (int i = bytes - 1; i >= 0; --i) text += static_cast<char>((value >> (8 * i)) & 0xFF);
  return text;
}

/// CRC-32 as PNG wants it. Source  PNG specification (W3C), annex D.
std::uint32_t crc32(const std::string& bytes) {
  std::uint32_t crc = 0xFFFFFFFFu;
  for (char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1) ^ ((crc & 1) != 0 ? 0xEDB88320u : 0u);
  }
  return crc ^ 0xFFFFFFFFu;
}

/// Puts a pHYs chunk straight after the header chunk.
void add_png_density(std::string& file, double dpi) {
  constexpr std::size_t kAfterHeader = 8 + 25;  // signature, IHDR
  const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
  const std::string body =
      "pHYs" + big_endian(per_metre, 4) + big_endian(per_metre, 4) + std::string(1, '\1');
  file.insert(kAfterHeader, big_endian(9, 4) + body + big_endian(crc32(body), 4));
}

/// Sets unit and density of the JFIF header, which starts at byte 2. Source  JFIF 1.02.
void set_jpeg_density(std::string& file, double dpi) {
  if (file.compare(6, 4, "JFIF") != 0) throw Error(tr("JPEG encoder"), tr("wrote no JFIF header"));
  const std::string density = big_endian(static_cast<std::uint32_t>(std::lround(dpi)), 2);
  file.replace(13, 5,
               std::string(1, dpi > 0 ? '\1' : '\0') +
                   (dpi > 0 ? density + density : std::string("\0\1\0\1", 4)));
}

}  // namespace

std::string extension(ImageKind kind) {
  if (kind == ImageKind::png) return ".png";
  return kind == ImageKind::jpeg ? ".jpg" : ".tif";
}

std::string encode(const ScanImage& image, ImageKind kind, int jpeg_quality, double dpi) {
  const cv::Mat pixels(image.height, image.width, image.channels == 1 ? CV_8UC1 : CV_8UC3,
                       const_cast<std::uint8_t*>(image.bytes.data()));
  std::vector<int> options;
  if (kind == ImageKind::png) options = {cv::IMWRITE_PNG_COMPRESSION, 1};
  if (kind == ImageKind::jpeg) options = {cv::IMWRITE_JPEG_QUALITY, jpeg_quality};
  if (kind == ImageKind::tiff) {
    constexpr int kLzw = 5, kInch = 2, kNoUnit = 1;
    const int whole_dpi = static_cast<int>(std::lround(dpi));
    options = {cv::IMWRITE_TIFF_COMPRESSION, kLzw, cv::IMWRITE_TIFF_RESUNIT,
               dpi > 0 ? kInch : kNoUnit};
    if (dpi > 0) {
      options.insert(options.end(),
                     {cv::IMWRITE_TIFF_XDPI, whole_dpi, cv::IMWRITE_TIFF_YDPI, whole_dpi});
    }
  }
  std::vector<std::uint8_t> bytes;
  if (!cv::imencode(extension(kind), pixels, bytes, options)) {
    throw Error(
        tr("picture of {} x {} pixels", image.width, image.height),
        tr("cannot be written as {}. Use a lower dpi or another kind of file", extension(kind)));
  }
  std::string file(bytes.begin(), bytes.end());
  if (kind == ImageKind::png && dpi > 0) add_png_density(file, dpi);
  if (kind == ImageKind::jpeg) set_jpeg_density(file, dpi);
  return file;
}

ScanImage read_picture(const std::filesystem::path& path, bool grey) {
  const cv::Mat pixels =
      cv::imread(path.string(), grey ? cv::IMREAD_GRAYSCALE : cv::IMREAD_UNCHANGED);
  if (pixels.empty() || pixels.depth() != CV_8U || !pixels.isContinuous()) {
    throw Error(path.string(), tr("cannot be read as an 8-bit picture"));
  }
  return {pixels.cols,
          pixels.rows,
          pixels.channels(),
          {pixels.data, pixels.data + pixels.total() * pixels.elemSize()}};
}

}  // namespace versolay::rehearse
