// Places of marks, judged by OpenCV (contours, moments, ArUco) and by the Cramer-Rao bound; and the
// half pixel, by turning pictures.
#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <opencv2/imgproc.hpp>
#include <random>

#include "measure/ring.h"
#include "measure/tags.h"
#include "support/aruco_tags.h"

namespace versolay {
namespace {

constexpr RingSize kSize{2.561, 2.137};
constexpr double kPxPerMm = 300 / 25.4;
constexpr double kBlurPx = 0.8;
constexpr int kSide = 96;
constexpr double kPaper = 220.0;
constexpr double kInk = 40.0;

double step(double distance_px) { return 0.5 * std::erfc(-distance_px / (std::sqrt(2) * kBlurPx)); }

/// Light of a blurred ring, exact but for the curvature within the blur.
cv::Mat1f ring_light(const Point<ScanPx>& centre) {
  cv::Mat1f light(kSide, kSide);
  for (int y = 0; y < kSide; ++y) {
    for (int x = 0; x < kSide; ++x) {
      const double r = std::hypot(x + 0.5 - centre.x, y + 0.5 - centre.y);
      const double ink =
          step(r - kSize.inner_radius_mm * kPxPerMm) - step(r - kSize.outer_radius_mm * kPxPerMm);
      light(y, x) = static_cast<float>(kPaper + (kInk - kPaper) * ink);
    }
  }
  return light;
}

GreyImage as_grey(const cv::Mat& light) {
  cv::Mat1b bytes;
  light.convertTo(bytes, CV_8U);
  GreyImage image;
  image.width = bytes.cols;
  image.height = bytes.rows;
  image.pixels.assign(bytes.begin(), bytes.end());
  return image;
}

Point<ScanPx> found_ring(const GreyImage& image) {
  const Affine<ScanPx, PageMm> scan_from_page(Eigen::Matrix2d::Identity() * kPxPerMm,
                                              Eigen::Vector2d(kSide / 2.0, kSide / 2.0));
  const auto ring = find_ring(Sampler(image), scan_from_page, {0.1, -0.1}, kSize, 0.6);
  EXPECT_TRUE(ring.has_value());
  return ring ? ring->centre : Point<ScanPx>{0, 0};
}

const std::vector<Point<ScanPx>> kCentres = {{48.0, 48.0}, {47.5, 48.31}, {49.77, 46.9}};

/// A quarter turn clockwise of a picture of this height: the corner of a pixel goes to a corner.
Point<ScanPx> turned(const Point<ScanPx>& p, int height) { return {height - p.y, p.x}; }

TEST(MarkPlaces, ATurnedPictureTurnsTheRingExactly) {
  for (const Point<ScanPx>& centre : kCentres) {
    cv::Mat light = ring_light(centre);
    Point<ScanPx> expected = found_ring(as_grey(light));
    for (int quarter = 0; quarter < 3; ++quarter) {
      expected = turned(expected, light.rows);
      cv::rotate(light, light, cv::ROTATE_90_CLOCKWISE);
      const Point<ScanPx> found = found_ring(as_grey(light));
      EXPECT_NEAR(found.x, expected.x, 0.005);
      EXPECT_NEAR(found.y, expected.y, 0.005);
    }
  }
}

TEST(MarkPlaces, OpenCvSeesTheRingAtTheSamePlace) {
  for (const Point<ScanPx>& centre : kCentres) {
    const cv::Mat1f light = ring_light(centre);
    const Point<ScanPx> found = found_ring(as_grey(light));
    // Centroid of the ink. OpenCV counts from the middle of the first pixel.
    const cv::Moments ink = cv::moments(cv::Mat1f(static_cast<float>(kPaper) - light));
    EXPECT_NEAR(found.x, ink.m10 / ink.m00 + 0.5, 0.01);
    EXPECT_NEAR(found.y, ink.m01 / ink.m00 + 0.5, 0.01);
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(cv::Mat1b(light < (kPaper + kInk) / 2), contours, cv::RETR_EXTERNAL,
                     cv::CHAIN_APPROX_NONE);
    ASSERT_EQ(contours.size(), 1u);
    const cv::RotatedRect ellipse = cv::fitEllipse(contours[0]);  // of whole pixels
    EXPECT_NEAR(found.x, ellipse.center.x + 0.5, 0.25);
    EXPECT_NEAR(found.y, ellipse.center.y + 0.5, 0.25);
  }
}

/// Smallest standard deviation of one coordinate that any unbiased estimator can reach when
/// everything else is known: noise over the root of the sum of the squared slopes.
double cramer_rao_bound_px(const Point<ScanPx>& centre, double noise) {
  constexpr double kStep = 0.05;
  const cv::Mat difference =
      ring_light({centre.x + kStep, centre.y}) - ring_light({centre.x - kStep, centre.y});
  return noise * 2 * kStep / cv::norm(difference);
}

TEST(MarkPlaces, ARingIsReadToTwiceTheBoundOfItsNoise) {
  constexpr double kNoise = 4.0;
  constexpr int kPictures = 200;
  std::mt19937 engine(11);
  std::normal_distribution<float> noise(0.0F, static_cast<float>(kNoise));
  double squares = 0.0;
  for (int i = 0; i < kPictures; ++i) {
    const Point<ScanPx> centre = kCentres[static_cast<std::size_t>(i) % kCentres.size()];
    cv::Mat1f light = ring_light(centre);
    for (float& value : light) value += noise(engine);
    const Point<ScanPx> found = found_ring(as_grey(light));
    squares += std::pow(found.x - centre.x, 2) + std::pow(found.y - centre.y, 2);
  }
  const double rms = std::sqrt(squares / (2 * kPictures));
  const double bound = cramer_rao_bound_px(kCentres[0], kNoise);
  RecordProperty("rms_over_bound", std::to_string(rms / bound));
  EXPECT_GT(rms, 0.85 * bound);  // 400 values: 5 % per sd
  EXPECT_LT(rms, 2.0 * bound);
}

/// A tag of 80 pixels on white paper, 3 degrees askew.
cv::Mat tag_light(int id) {
  apriltag_family_t* family = tag36h11_create();
  image_u8_t* small = apriltag_to_image(family, static_cast<std::uint32_t>(id));
  const cv::Mat modules(small->height, small->width, CV_8UC1, small->buf, small->stride);
  cv::Mat large;
  cv::resize(modules, large, {}, 8, 8, cv::INTER_NEAREST);
  image_u8_destroy(small);
  tag36h11_destroy(family);
  cv::Mat page(240, 200, CV_8UC1, cv::Scalar(255));
  const cv::Mat turn = (cv::Mat_<double>(2, 3) << 0.9986, -0.0523, 50.3, 0.0523, 0.9986, 70.6);
  cv::warpAffine(large, page, turn, page.size(), cv::INTER_LINEAR, cv::BORDER_CONSTANT,
                 cv::Scalar(255));
  cv::GaussianBlur(page, page, {}, 0.8);
  return page;
}

int a_tag_of_ours() {
  int id = 0;
  while (!tag_meaning(id)) ++id;
  return id;
}

std::array<Point<ScanPx>, 4> corners_of_tag(const cv::Mat& picture) {
  const auto tags = find_tags(as_grey(picture), Reduction{1, 1});
  EXPECT_EQ(tags.size(), 1u);
  return tags.empty() ? std::array<Point<ScanPx>, 4>{} : tags[0].corners;
}

double farthest_from(const std::array<Point<ScanPx>, 4>& corners,
                     const std::function<double(const Point<ScanPx>&)>& distance) {
  double worst = 0.0;
  for (const auto& corner : corners) worst = std::max(worst, distance(corner));
  return worst;
}

TEST(MarkPlaces, ATurnedPictureTurnsTheTagExactly) {
  cv::Mat picture = tag_light(a_tag_of_ours());
  auto expected = corners_of_tag(picture);
  for (int quarter = 0; quarter < 3; ++quarter) {
    for (auto& corner : expected) corner = turned(corner, picture.rows);
    cv::rotate(picture, picture, cv::ROTATE_90_CLOCKWISE);
    const auto found = corners_of_tag(picture);
    for (std::size_t i = 0; i < 4; ++i) {
      EXPECT_NEAR(found[i].x, expected[i].x, 0.2);  // half a pixel wrong would be one here
      EXPECT_NEAR(found[i].y, expected[i].y, 0.2);
    }
  }
}

TEST(MarkPlaces, ArUcoSeesTheCornersOfTheTagAtTheSamePlaces) {
  const cv::Mat picture = tag_light(a_tag_of_ours());
  const auto seen = testing_support::aruco_tags(picture);
  ASSERT_EQ(seen.size(), 1u);
  EXPECT_EQ(seen[0].number, a_tag_of_ours());
  EXPECT_LT(farthest_from(corners_of_tag(picture),
                          [&](const Point<ScanPx>& p) {
                            double nearest = 1e9;
                            for (const Point<ScanPx>& q : seen[0].corners) {
                              nearest = std::min(nearest, std::hypot(p.x - q.x, p.y - q.y));
                            }
                            return nearest;
                          }),
            0.35);
}

}  // namespace
}  // namespace versolay
