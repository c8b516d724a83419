#include "measure/picture_check.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "measure/findings.h"
#include "measure/reduce.h"

namespace versolay {
namespace {

/// Long side of the image in which tags are looked for, until enough are found: A4 at about 60, 95
/// and 190 dpi, A3 at 40, 65 and 130. Time goes with the area.
constexpr int kCoarseLongSidesPx[] = {700, 1100, 2200};
constexpr std::size_t kEnoughTags = 4;
constexpr std::size_t kLeastTags = 2;
constexpr double kSameBothWays = 1.25;  // proportions of pixels that a tag is read under anyway

constexpr double kDarkLevel = 60.0;   // of 255: nothing in the picture is lighter
constexpr double kInkOfPaper = 0.75;  // darker than this share of the paper's light
constexpr int kLeastSpeckPx = 3;      // of the reduced image
/// Grey of a black lid behind the sheet, and of the paper in shadow, as shares of the paper's.
constexpr double kLidOfPaper = 0.35;
constexpr double kPaperOfPaper = 0.9;
constexpr double kTonedShareOfArt = 0.1;
constexpr int kMostSpecksOfABlank = 30;  // holes, dust and stains; a line of text has more

/// Pixels per row over pixels per column, for the same length: 2 for 600 x 300 dpi.
double proportion_of(const Scan& scan) {
  if (!scan.dpi_x || !scan.dpi_y) return 1.0;
  const double proportion = *scan.dpi_x / *scan.dpi_y;
  return proportion > kSameBothWays || proportion < 1.0 / kSameBothWays ? proportion : 1.0;
}

/// At most the image's own sides, however elongated it is.
Reduction reduction_to(const GreyImage& grey, double proportion, int long_side_px) {
  const auto factor = [&](double stretch) {
    const double height_px = grey.height * std::sqrt(proportion);
    const double width_px = grey.width / std::sqrt(proportion);
    return std::max(
        1, static_cast<int>(std::lround(stretch * std::max(width_px, height_px) / long_side_px)));
  };
  return {std::min(factor(std::sqrt(proportion)), std::max(1, grey.width)),
          std::min(factor(1.0 / std::sqrt(proportion)), std::max(1, grey.height))};
}

bool full_size(const Reduction& by) { return by.across == 1 && by.down == 1; }

void mirror(GreyImage& image) {
  for (int y = 0; y < image.height; ++y) {
    std::reverse(image.row(y), image.row(y) + image.width);
  }
}

void invert(GreyImage& image) {
  for (std::uint8_t& level : image.pixels) level = static_cast<std::uint8_t>(255 - level);
}

/// Are there tags in the picture once it is changed so?
bool has_tags(const Scan& scan, void (*changed)(GreyImage&)) {
  for (const int long_side : kCoarseLongSidesPx) {
    const Reduction by = reduction_to(scan.grey, proportion_of(scan), long_side);
    GreyImage small = reduce_by_area(scan.grey, by);
    changed(small);
    if (find_tags(small, by).size() >= kLeastTags) return true;
    if (full_size(by)) break;
  }
  return false;
}

/// What is on the lightest large area of a picture, which is the paper.
struct Print {
  int specks = 0;  // dark ones
  double toned =
      0.0;  // share of the picture that is neither as light as paper nor as dark as a lid
};

Print print_on_the_paper(const GreyImage& small) {
  const cv::Mat picture(small.height, small.width, CV_8UC1,
                        const_cast<std::uint8_t*>(small.pixels.data()));
  cv::Mat light;
  cv::threshold(picture, light, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU);
  cv::Mat labels, statistics, centroids;
  const int count = cv::connectedComponentsWithStats(light, labels, statistics, centroids, 8);
  int paper = 0;
  for (int label = 1; label < count; ++label) {
    const auto area = [&](int l) { return statistics.at<int>(l, cv::CC_STAT_AREA); };
    if (paper == 0 || area(label) > area(paper)) paper = label;
  }
  if (paper == 0) return {};
  // Its outline, filled and without its rim: edges of the paper are dark, too.
  std::vector<std::vector<cv::Point>> outlines;
  cv::findContours(labels == paper, outlines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  cv::Mat inside = cv::Mat::zeros(picture.size(), CV_8UC1);
  cv::drawContours(inside, outlines, -1, cv::Scalar(255), cv::FILLED);
  const int rim = std::max(3, small.width / 40);
  cv::erode(inside, inside, cv::getStructuringElement(cv::MORPH_RECT, {2 * rim + 1, 2 * rim + 1}),
            {-1, -1}, 1, cv::BORDER_CONSTANT, cv::Scalar(0));
  const double paper_grey = cv::mean(picture, labels == paper)[0];
  const int toned = cv::countNonZero((picture > kLidOfPaper * paper_grey) &
                                     (picture < kPaperOfPaper * paper_grey));
  const double level = kInkOfPaper * paper_grey;
  cv::Mat ink = (picture < level) & inside;
  Print print{0, toned / static_cast<double>(picture.total())};
  const int found = cv::connectedComponentsWithStats(ink, labels, statistics, centroids, 8);
  for (int label = 1; label < found; ++label) {
    print.specks += statistics.at<int>(label, cv::CC_STAT_AREA) >= kLeastSpeckPx ? 1 : 0;
  }
  return print;
}

}  // namespace

std::vector<TagSighting> find_page_tags(const Scan& scan) {
  std::vector<TagSighting> tags;
  for (const int long_side : kCoarseLongSidesPx) {
    const Reduction by = reduction_to(scan.grey, proportion_of(scan), long_side);
    tags = find_tags(reduce_by_area(scan.grey, by), by);
    if (tags.size() >= kEnoughTags || full_size(by)) break;
  }
  return tags;
}

std::vector<PassTagSighting> find_page_pass_tags(const Scan& scan) {
  const Reduction by = reduction_to(scan.grey, proportion_of(scan), kCoarseLongSidesPx[2]);
  return find_pass_tags(reduce_by_area(scan.grey, by), by);
}

Refusal why_no_target(const Scan& scan) {
  if (has_tags(scan, invert)) {
    return findings::negative();
  }
  if (has_tags(scan, mirror)) {
    return findings::mirrored();
  }
  const GreyImage small = reduce_by_area(
      scan.grey, reduction_to(scan.grey, proportion_of(scan), kCoarseLongSidesPx[0]));
  if (*std::max_element(small.pixels.begin(), small.pixels.end()) < kDarkLevel) {
    return findings::dark_picture();
  }
  const Print print = print_on_the_paper(small);
  if (print.specks <= kMostSpecksOfABlank && print.toned < kTonedShareOfArt) {
    return findings::blank_page();
  }
  return findings::no_marks();
}

}  // namespace versolay
