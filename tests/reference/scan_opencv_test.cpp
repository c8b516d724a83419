// A second opinion: OpenCV's readers on the same files.
#include <opencv2/imgcodecs.hpp>

#include "support/scan_expect.h"

namespace versolay {
namespace {

using namespace scan_files;

using Pages = std::vector<cv::Mat>;

Pages opinion(const std::filesystem::path& path, int colours) {
  const int flags = colours | cv::IMREAD_IGNORE_ORIENTATION;
  if (path.extension() != ".tif") return {cv::imread(path.string(), flags)};
  Pages pages;
  cv::imreadmulti(path.string(), pages, flags);
  return pages;
}

/// Compares with OpenCV's colours (blue, green, red), made grey by the weights of BT.601. Its own
/// grey of a PNG goes through the file's gamma, which a measurement of edges has no use for.
void expect_agreement(const std::filesystem::path& path, double levels) {
  const Pages other = opinion(path, cv::IMREAD_COLOR);
  for_each_page(path, {}, [&](Scan&& scan) {
    const cv::Mat& page = other.at(static_cast<std::size_t>(scan.page - 1));
    ASSERT_EQ(page.cols, scan.grey.width) << scan.name();
    ASSERT_EQ(page.rows, scan.grey.height) << scan.name();
    const auto expected = [&](int x, int y) {
      const cv::Vec3b bgr = page.at<cv::Vec3b>(y, x);
      return 0.114 * bgr[0] + 0.587 * bgr[1] + 0.299 * bgr[2];
    };
    EXPECT_LE(largest_difference(scan.grey, expected), levels) << scan.name();
  });
}

/// OpenCV's grey of a JPEG is the luma plane, by the same decoder: no difference at all.
void expect_identity(const std::filesystem::path& path) {
  const cv::Mat page = opinion(path, cv::IMREAD_GRAYSCALE).at(0);
  const Scan scan = load_page(path, 1);
  ASSERT_EQ(page.total(), scan.grey.pixels.size());
  EXPECT_EQ(
      largest_difference(scan.grey, [&](int x, int y) { return page.at<std::uint8_t>(y, x); }),
      0.0);
}

TEST(OpenCv, AgreesOnTheCorpus) {
  const auto folder = std::filesystem::path(VERSOLAY_TEST_DATA) / "scan";
  for (const char* name :
       {"bilevel.png", "grey8.png", "palette4.png", "rgb8_interlaced.png", "bilevel_group3.tif",
        "bilevel_group4.tif", "two_levels_packbits.tif", "rgb_lzw.tif", "rgb_zip_tiles.tif",
        "rgb_planes.tif", "grey16_big_endian.tif", "three_pages.tif", "rgb_jpeg.tif"}) {
    expect_agreement(folder / name, 1.1);  // 16 bits are rounded here, cut there
  }
  for (const char* name : {"grey.jpg", "rgb.jpg", "rgb_progressive.jpg"}) {
    expect_identity(folder / name);
  }
}

TEST(OpenCv, AgreesOnDrawnSheets) {
  const Folder folder;
  const Picture grey = draw_sheet(811, 601, 1, 8);
  const Picture rgb = draw_sheet(811, 601, 3, 8);
  write_png(folder / "grey.png", grey, {});
  write_png(folder / "rgb.png", rgb, {.colour_type = PNG_COLOR_TYPE_RGB});
  write_jpeg(folder / "rgb.jpg", rgb, {.in_colours = JCS_RGB, .stored_colours = JCS_YCbCr});
  write_tiff(folder / "rgb.tif",
             {{rgb, {.photometric = PHOTOMETRIC_RGB, .compression = COMPRESSION_ADOBE_DEFLATE}}});
  expect_agreement(folder / "grey.png", 1e-9);
  expect_agreement(folder / "rgb.png", 1.0);
  expect_identity(folder / "rgb.jpg");
  expect_agreement(folder / "rgb.tif", 1.0);
}

TEST(OpenCv, ReadsACutJpegAsAFullImageWhichIsWhyItIsNotUsedHere) {
  const Folder folder;
  write_jpeg(folder / "whole.jpg", draw_sheet(811, 601, 1, 8), {});
  const std::string whole = bytes_of(folder / "whole.jpg");
  write_bytes(folder / "cut.jpg", std::string_view(whole).substr(0, whole.size() / 2));
  const cv::Mat invented = cv::imread((folder / "cut.jpg").string(), cv::IMREAD_GRAYSCALE);
  EXPECT_EQ(invented.rows, 601);
  EXPECT_THAT(refusal_of(folder / "cut.jpg"), kDamaged);
}

}  // namespace
}  // namespace versolay
