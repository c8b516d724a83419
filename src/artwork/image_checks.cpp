#include "artwork/image_checks.h"

#include "core/translation.h"
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
      return Error(file,
                   tr("is a kind of {} that cannot be read ({}). Save it as an ordinary JPEG, "
                      "or as PNG or TIFF with 8 bits",
                      format, fault.detail()));
    case images::PictureFault::too_large:
      return Error(file, tr("is too large ({}). Save a smaller copy", fault.detail()));
    case images::PictureFault::damaged:
      break;
  }
  return Error(file, tr("is a damaged {} ({}). Export or copy it again", format, fault.detail()));
}

void check_image_size(std::uint64_t width_px, std::uint64_t height_px, const std::string& file) {
  const std::string size = std::to_string(width_px) + " x " + std::to_string(height_px) + " px";
  if (width_px == 0 || height_px == 0) throw Error(file, tr("is damaged: it says it is {}", size));
  if (width_px > kLongestSidePx || height_px > kLongestSidePx ||
      width_px * height_px > kMostPixels) {
    throw Error(file, tr("is too large: {}. At most 30000 px a side and 300 megapixels are read; "
                         "600 ppi is plenty for a card. Save a smaller copy",
                         size));
  }
}

void check_pixels_to_decode(int width_px, int height_px, const std::string& file) {
  if (height_px <= kMostDecodedPixels / width_px) return;
  throw Error(file, tr("is too large to be unpacked: {} x {} px, at most 75 megapixels. Save a "
                       "smaller copy, or for printing a JPEG or a PNG without transparency",
                       width_px, height_px));
}

void check_page(int page, int pages, const std::filesystem::path& file) {
  if (page == 0 && pages > 1) {
    throw Error(file.string(),
                tr("has {} pages. Say which one: {}#1", pages, file.filename().string()));
  }
  if (page > pages) {
    throw Error(file.string(), trn("has {} page, not {}", "has {} pages, not {}", pages, page));
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
