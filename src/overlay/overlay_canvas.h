// A picture to draw on, in the pixel coordinates of its scan.
#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "artwork/lettering.h"
#include "overlay/overlay.h"
#include "versolay/frames.h"

namespace versolay {

/// Blue, green, red, as OpenCV wants them. Their greys differ, so that they survive in black.
namespace pen {
inline const cv::Scalar kRing(150, 140, 40);
inline const cv::Scalar kHole(140, 30, 0);
inline const cv::Scalar kTrouble(0, 0, 190);
inline const cv::Scalar kWords(0, 0, 0);
inline const cv::Scalar kPaper(255, 255, 255);
}  // namespace pen

/// A line of the key: a sign and what it means.
enum class Sign { ring, cross, diamond, hole, edge, arrow, box, scale };
struct KeyLine {
  Sign sign;
  std::string meaning;
  double length_px = 0.0;  // of the bar of a scale, in pixels of the scan
};

class Canvas {
 public:
  /// @param quarter_turns  clockwise, to bring the page upright.
  Canvas(const ScanThumbnail& picture, int quarter_turns);

  void circle(const Point<ScanPx>& p, double radius_px, const cv::Scalar& colour, int thick = 2);
  void cross(const Point<ScanPx>& p, const cv::Scalar& colour);
  void diamond(const Point<ScanPx>& p, const cv::Scalar& colour);
  void box(const Point<ScanPx>& p, double half_px, const cv::Scalar& colour);
  void line(const Point<ScanPx>& a, const Point<ScanPx>& b, const cv::Scalar& colour, int thick);
  void arrow(const Point<ScanPx>& from, const Point<ScanPx>& to, const cv::Scalar& colour);
  /// Words on a white ground beside a place, kept inside the picture. Here and in the frame "+-" is
  /// shown as the sign for it.
  void words(const Point<ScanPx>& p, const std::string& text, const cv::Scalar& colour);

  /// Under a headline and paragraphs, above a key. The headline is white on black when there is
  /// trouble, black on white otherwise.
  OverlayPicture framed(const std::string& headline, bool trouble,
                        const std::vector<std::string>& paragraphs,
                        const std::vector<KeyLine>& key) const;

 private:
  cv::Point2d at(const Point<ScanPx>& p) const;
  double px(double scan_px) const;
  int draw_sign(cv::Mat& image, const KeyLine& key, const cv::Point& c) const;

  int quarter_turns_;
  Reduction by_;
  int width_;
  int height_;
  cv::Mat image_;
  Lettering plain_;
  Lettering bold_{true};
};

}  // namespace versolay
