#include "scan/input_file.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string_view>

#include "core/findings.h"
#include "core/numbers.h"
#include "images/jpeg_reader.h"
#include "images/png_reader.h"
#include "images/tiff_reader.h"
#include "scan/findings.h"

namespace versolay::scan {
namespace {

constexpr std::size_t kReadAhead = 1 << 16;

std::string system_reason() { return std::strerror(errno); }

}  // namespace

std::string Place::text() const { return named_page(path.string(), page, pages); }

Error damaged(const Place& place, const std::string& detail) {
  return Error(place.text(), findings::scan_damaged(detail));
}

Error in_words(const images::PictureError& fault, const Place& place) {
  return fault.fault() == images::PictureFault::unsupported
             ? Error(place.text(), findings::scan_unsupported(fault.detail()))
             : damaged(place, fault.detail());
}

void check_size(const Place& place, std::int64_t width, std::int64_t height,
                std::int64_t bits_per_pixel, const ScanLimits& limits) {
  if (width <= 0 || height <= 0) throw Error(place.text(), findings::scan_without_pixels());
  // width * height cannot overflow: formats store sides in 32 bits at most.
  if (width > limits.max_side || height > limits.max_side || width * height > limits.max_pixels) {
    throw Error(place.text(),
                findings::scan_too_large(
                    width, height, static_cast<double>(limits.max_pixels) / 1e6, limits.max_side));
  }
  if (bits_per_pixel > 1024 || width * height / 8 * bits_per_pixel > limits.max_bytes) {
    throw Error(place.text(),
                findings::scan_too_deep(bits_per_pixel, static_cast<double>(width * height) / 1e6));
  }
}

InputFile::InputFile(const std::filesystem::path& path) : path_(path) {
  // A pipe that is opened without O_NONBLOCK waits for its writer.
  const int descriptor = open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
  if (descriptor >= 0) file_.reset(fdopen(descriptor, "rb"));
  if (!file_) throw Error(path.string(), findings::cannot_open(system_reason()));
  struct stat status {};
  if (fstat(fileno(file_.get()), &status) != 0) {
    throw Error(path.string(), findings::scan_unreadable(system_reason()));
  }
  if (S_ISDIR(status.st_mode)) {
    throw Error(path.string(), findings::scan_is_a_folder());
  }
  if (!S_ISREG(status.st_mode)) {
    throw Error(path.string(), findings::scan_is_no_file());
  }
  if (status.st_size == 0) {
    throw Error(path.string(), findings::scan_is_empty());
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
  throw Error(path_.string(), findings::not_a_scan_format());
}

}  // namespace versolay::scan
