// Tags as OpenCV's ArUco sees them: a second opinion on where they are.
#pragma once

#include <array>
#include <opencv2/aruco.hpp>
#include <vector>

#include "versolay/frames.h"

namespace versolay::testing_support {

struct ArucoTag {
  int number = 0;
  std::array<Point<ScanPx>, 4> corners;  // clockwise; from which one, ArUco decides
};

inline std::vector<ArucoTag> aruco_tags(const cv::Mat& picture) {
  auto parameters = cv::aruco::DetectorParameters::create();
  parameters->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
  const auto family = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
  std::vector<std::vector<cv::Point2f>> seen;
  std::vector<int> numbers;
  cv::aruco::detectMarkers(picture, family, seen, numbers, parameters);
  std::vector<ArucoTag> tags;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    ArucoTag tag{numbers[i], {}};
    for (std::size_t k = 0; k < 4; ++k) {  // ArUco counts from the middle of the first pixel
      tag.corners[k] = {seen[i][k].x + 0.5, seen[i][k].y + 0.5};
    }
    tags.push_back(tag);
  }
  return tags;
}

}  // namespace versolay::testing_support
