// Two opinions on one picture: our readers against OpenCV's, which drives the same libraries by
// other code. Where both read it, size, orientation and greys agree.
#include <tiffio.h>

#include <memory>
#include <opencv2/core.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "artwork/coded_image.h"
#include "artwork/raster.h"
#include "memory_file.h"
#include "scan/scan.h"

namespace {

using namespace versolay;

constexpr double kMostGrey = 24.0;  // mean difference: gamma, profiles and rounding stay below

[[noreturn]] void differ(const char* what, const cv::Mat& theirs, int width, int height) {
  std::fprintf(stderr, "%s: ours %d x %d, theirs %d x %d\n", what, width, height, theirs.cols,
               theirs.rows);
  std::abort();
}

/// OpenCV's picture as 8-bit grey, transparency over white; empty where it reads none.
cv::Mat their_grey(const std::vector<std::uint8_t>& bytes, bool oriented) {
  cv::Mat picture;
  try {
    // IMREAD_UNCHANGED keeps transparency and ignores the orientation.
    picture = cv::imdecode(
        bytes, oriented ? cv::IMREAD_ANYDEPTH | cv::IMREAD_COLOR : cv::IMREAD_UNCHANGED);
  } catch (const cv::Exception&) {
    return {};
  }
  if (picture.empty()) return {};
  if (picture.depth() == CV_16U) picture.convertTo(picture, CV_8U, 1.0 / 257);
  if (picture.depth() != CV_8U) return {};
  cv::Mat grey = picture;
  if (picture.channels() == 3) cv::cvtColor(picture, grey, cv::COLOR_BGR2GRAY);
  if (picture.channels() == 4) {
    cv::cvtColor(picture, grey, cv::COLOR_BGRA2GRAY);
    for (int y = 0; y < grey.rows; ++y) {
      for (int x = 0; x < grey.cols; ++x) {
        const int alpha = picture.at<cv::Vec4b>(y, x)[3];
        auto& value = grey.at<std::uint8_t>(y, x);
        value = static_cast<std::uint8_t>((value * alpha + 255 * (255 - alpha)) / 255);
      }
    }
  }
  return grey;
}

void compare(const char* what, const cv::Mat& ours, const cv::Mat& theirs) {
  if (theirs.empty()) return;
  if (ours.size() != theirs.size()) differ(what, theirs, ours.cols, ours.rows);
  const double off = cv::norm(ours, theirs, cv::NORM_L1) / static_cast<double>(ours.total());
  if (off <= kMostGrey) return;
  std::fprintf(stderr, "%s: greys are %.1f off on average\n", what, off);
  std::abort();
}

/// OpenCV does not read Exif in a PNG, and of several Exif segments of a JPEG it takes another one.
bool says_twice_how_it_is_turned(std::string_view bytes) {
  const std::size_t first = bytes.find("Exif");
  return bytes.find("eXIf") != bytes.npos ||
         (first != bytes.npos && bytes.find("Exif", first + 1) != bytes.npos);
}

/// OpenCV reads one plane, the first directory and no colours beside the usual ones, and turns a
/// TIFF by quarters whether it is asked to or not: of a TIFF of another kind it makes another
/// picture, without an error.
bool is_read_alike(const std::filesystem::path& path) {
  TIFFSetErrorHandler(nullptr);
  TIFFSetWarningHandler(nullptr);
  const std::unique_ptr<TIFF, void (*)(TIFF*)> tiff(TIFFOpen(path.c_str(), "r"), TIFFClose);
  if (!tiff) return true;  // of another format
  std::uint32_t kind = 0;
  std::uint16_t planes = 0;
  std::uint16_t extra = 0;
  std::uint16_t* extra_kinds = nullptr;
  std::uint16_t bits = 0;
  std::uint16_t orientation = 1;
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_SUBFILETYPE, &kind);
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_PLANARCONFIG, &planes);
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_EXTRASAMPLES, &extra, &extra_kinds);
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_BITSPERSAMPLE, &bits);
  TIFFGetFieldDefaulted(tiff.get(), TIFFTAG_ORIENTATION, &orientation);
  return kind == 0 && planes == PLANARCONFIG_CONTIG && extra == 0 && (bits == 8 || bits == 1) &&
         orientation == ORIENTATION_TOPLEFT;
}

void compare_scan(const std::filesystem::path& path, const std::vector<std::uint8_t>& bytes) {
  const ScanLimits limits{4'000'000, 20'000};
  Scan scan = load_page(path, 1, limits);
  if (!scan.warnings.empty()) return;  // mirrored, or black and white
  const cv::Mat ours(scan.grey.height, scan.grey.width, CV_8U, scan.grey.pixels.data());
  compare("scan", ours, their_grey(bytes, false));
}

void compare_art(const std::filesystem::path& path, const std::vector<std::uint8_t>& bytes) {
  const CodedImage coded = read_coded_image(path);
  const Raster raster = read_raster(path);
  if (raster.width_px != coded.seen_width_px() || raster.height_px != coded.seen_height_px()) {
    std::abort();
  }
  if (raster.channels == 4) return;
  cv::Mat ours(raster.height_px, raster.width_px, CV_8U);
  for (int y = 0; y < raster.height_px; ++y) {
    for (int x = 0; x < raster.width_px; ++x) {
      const double scale = 255.0 / raster.largest();
      const double r = raster.at(x, y, 0) * scale;
      const double g = raster.at(x, y, raster.channels == 3 ? 1 : 0) * scale;
      const double b = raster.at(x, y, raster.channels == 3 ? 2 : 0) * scale;
      ours.at<std::uint8_t>(y, x) =
          cv::saturate_cast<std::uint8_t>(0.299 * r + 0.587 * g + 0.114 * b);
    }
  }
  compare("art", ours, their_grey(bytes, coded.orientation != 1));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::vector<std::uint8_t> bytes(data, data + size);
  if (std::string_view(reinterpret_cast<const char*>(data), size).substr(0, 1024).find("%PDF") !=
      std::string_view::npos) {
    return 0;
  }
  const testing_support::MemoryFile file(data, size);
  if (!is_read_alike(file.path())) return 0;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  if (says_twice_how_it_is_turned(text)) return 0;
  try {
    compare_scan(file.path(), bytes);
  } catch (const Error&) {
  }
  try {
    compare_art(file.path(), bytes);
  } catch (const Error&) {
  }
  return 0;
}
