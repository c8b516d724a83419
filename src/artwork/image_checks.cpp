#include "artwork/image_checks.h"

#include "artwork/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr std::uint64_t kLongestSidePx = 30000;
constexpr std::uint64_t kMostPixels = 300'000'000;
constexpr int kMostDecodedPixels = 75'000'000;  // A3 at 600 ppi has 70; of 6 bytes

}  // namespace

Error in_words(const images::PictureError& fault, const char* format, const std::string& file) {
  switch (fault.fault()) {
    case images::PictureFault::unsupported:
      return Error(file, findings::picture_unsupported(format, fault.detail()));
    case images::PictureFault::too_large:
      return Error(file, findings::picture_beyond_the_library(fault.detail()));
    case images::PictureFault::damaged:
      break;
  }
  return Error(file, findings::picture_damaged(format, fault.detail()));
}

void check_image_size(std::uint64_t width_px, std::uint64_t height_px, const std::string& file) {
  const std::string size = std::to_string(width_px) + " x " + std::to_string(height_px) + " px";
  if (width_px == 0 || height_px == 0) throw Error(file, findings::picture_without_pixels(size));
  if (width_px > kLongestSidePx || height_px > kLongestSidePx ||
      width_px * height_px > kMostPixels) {
    throw Error(file, findings::picture_too_large(size));
  }
}

void check_pixels_to_decode(int width_px, int height_px, const std::string& file) {
  if (height_px <= kMostDecodedPixels / width_px) return;
  throw Error(file, findings::picture_too_large_to_unpack(width_px, height_px));
}

void check_page(int page, int pages, const std::filesystem::path& file) {
  if (page == 0 && pages > 1) {
    throw Error(file.string(), findings::page_not_named(pages, file.filename().string()));
  }
  if (page > pages) {
    throw Error(file.string(), findings::picture_has_no_such_page(pages, page));
  }
}

std::string matching_icc_profile(std::string profile, int components) {
  constexpr std::size_t kHeaderBytes = 128;
  if (profile.size() < kHeaderBytes || profile.compare(36, 4, "acsp") != 0) return {};
  if (big_endian(profile, 0, 4) != profile.size()) return {};
  const char* wanted = components == 1 ? "GRAY" : components == 3 ? "RGB " : "CMYK";
  if (profile.compare(16, 4, wanted) != 0) return {};
  return profile;
}

}  // namespace versolay
