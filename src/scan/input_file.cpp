#include "scan/input_file.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string_view>

#include "core/numbers.h"
#include "core/translation.h"
#include "images/jpeg_reader.h"
#include "images/png_reader.h"
#include "images/tiff_reader.h"

namespace versolay::scan {
namespace {

constexpr std::size_t kReadAhead = 1 << 16;

std::string system_reason() { return std::strerror(errno); }

}  // namespace

std::string Place::text() const {
  return pages > 1 ? tr("{}, page {}", path.string(), page) : path.string();
}

Error damaged(const Place& place, const std::string& detail) {
  return Error(
      place.text(),
      tr("the file is incomplete or damaged ({}). Scan the sheet again, or copy the file again",
         detail));
}

Error unsupported(const Place& place, const std::string& what) {
  return Error(place.text(),
               tr("the image is {}. Save it as 8-bit grey or RGB in a PNG or TIFF file, without "
                  "changing its size in pixels, or scan the sheet again",
                  what));
}

Error in_words(const images::PictureError& fault, const Place& place) {
  return fault.fault() == images::PictureFault::unsupported
             ? unsupported(place, tr("of a kind that is not read ({})", fault.detail()))
             : damaged(place, fault.detail());
}

void check_size(const Place& place, std::int64_t width, std::int64_t height,
                std::int64_t bits_per_pixel, const ScanLimits& limits) {
  if (width <= 0 || height <= 0) throw damaged(place, tr("it has no pixels"));
  // width * height cannot overflow: formats store sides in 32 bits at most.
  if (width > limits.max_side || height > limits.max_side || width * height > limits.max_pixels) {
    throw Error(place.text(),
                tr("the image is too large: {} x {} pixels, and {} million in all, {} on a side, "
                   "are read at most. Scan at a lower resolution: 300 to 600 dpi is enough",
                   width, height, format_number(static_cast<double>(limits.max_pixels) / 1e6, 1),
                   limits.max_side));
  }
  if (bits_per_pixel > 1024 || width * height / 8 * bits_per_pixel > limits.max_bytes) {
    throw Error(
        place.text(),
        tr("the image takes too much memory: {} bits for each of {} million pixels. Scan in "
           "grey or in 24-bit colour",
           bits_per_pixel, format_number(static_cast<double>(width * height) / 1e6, 1)));
  }
}

InputFile::InputFile(const std::filesystem::path& path) : path_(path) {
  // A pipe that is opened without O_NONBLOCK waits for its writer.
  const int descriptor = open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
  if (descriptor >= 0) file_.reset(fdopen(descriptor, "rb"));
  if (!file_) throw Error(path.string(), tr("cannot be opened: {}", system_reason()));
  struct stat status {};
  if (fstat(fileno(file_.get()), &status) != 0) {
    throw Error(path.string(), tr("cannot be read: {}", system_reason()));
  }
  if (S_ISDIR(status.st_mode)) {
    throw Error(path.string(), tr("is a folder. Name the scan files in it"));
  }
  if (!S_ISREG(status.st_mode)) {
    throw Error(path.string(), tr("is not an ordinary file. Save the scan to a file first"));
  }
  if (status.st_size == 0) {
    throw Error(path.string(),
                tr("is empty (0 bytes). Scan the sheet again, or copy the file again"));
  }
  size_ = status.st_size;
  std::setvbuf(file_.get(), nullptr, _IOFBF, kReadAhead);
}

int InputFile::descriptor() const { return fileno(file_.get()); }

Format InputFile::format() const {
  std::array<char, 8> bytes{};
  const std::size_t n = std::fread(bytes.data(), 1, bytes.size(), file_.get());
  std::rewind(file_.get());
  const std::string_view start(bytes.data(), n);
  if (images::looks_like_png(start)) return Format::png;
  if (images::looks_like_jpeg(start)) return Format::jpeg;
  if (images::looks_like_tiff(start)) return Format::tiff;
  if (start.starts_with("%PDF-")) return Format::pdf;
  throw Error(
      path_.string(),
      tr("is not a PNG, JPEG, TIFF or PDF file. Save the scan as one of these and try again"));
}

}  // namespace versolay::scan
