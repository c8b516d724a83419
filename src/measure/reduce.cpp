#include "measure/reduce.h"

#include <opencv2/imgproc.hpp>

#include "core/expect.h"

namespace versolay {

GreyImage reduce_by_area(const GreyImage& image, Reduction by) {
  return reduced_part(image, 0, 0, image.width, image.height, by);
}

GreyImage reduced_part(const GreyImage& image, int x0, int y0, int width, int height,
                       Reduction by) {
  expect(by.across >= 1 && by.down >= 1 && x0 >= 0 && y0 >= 0 && x0 + width <= image.width &&
         y0 + height <= image.height);
  GreyImage small;
  small.width = width / by.across;
  small.height = height / by.down;
  expect(small.width > 0 && small.height > 0);
  small.pixels.resize(static_cast<std::size_t>(small.width) *
                      static_cast<std::size_t>(small.height));
  const cv::Mat from(small.height * by.down, small.width * by.across, CV_8UC1,
                     const_cast<std::uint8_t*>(image.row(y0) + x0),
                     static_cast<std::size_t>(image.width));
  cv::Mat to(small.height, small.width, CV_8UC1, small.pixels.data());
  cv::resize(from, to, to.size(), 0, 0, cv::INTER_AREA);
  return small;
}

}  // namespace versolay
