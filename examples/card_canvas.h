// A canvas in millimetres, for drawing cards.
#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "bird_art.h"

namespace bird_deck {

using cv::Point2d;
using Outline = std::vector<Point2d>;

// Colours are 0xRRGGBB.
inline constexpr int kPaper = 0xf7f1e1;
inline constexpr int kInk = 0x2f3a36;
inline constexpr int kDeepGreen = 0x22503f;
inline constexpr int kMossGreen = 0x2f7a63;
inline constexpr int kAmber = 0xd99a3c;
int mix(int a, int b, double share_of_b);

double radians(double degrees);

/// A closed smooth curve through the points (Catmull-Rom).
Outline smooth(const Outline& through);
Outline ellipse(Point2d centre, double a, double b, double turned_deg = 0.0);
Outline box(Point2d from, Point2d to, double radius = 0.0);

/// A picture in card millimetres: origin at the upper-left corner of the bleed, x right, y down.
/// Drawn three times as large and reduced at the end, so that all edges are smooth.
class Canvas {
 public:
  explicit Canvas(const CardFormat& format);

  double width() const { return format_.full_width_mm(); }
  double height() const { return format_.full_height_mm(); }

  void fill(const Outline& outline, int rgb);
  /// Fills the part of `outline` that lies inside `limit`.
  void fill_within(const Outline& limit, const Outline& outline, int rgb);
  /// From one colour at the top of the outline to another at its bottom.
  void shade(const Outline& outline, int top, int bottom);
  void line(const Outline& through, double width_mm, int rgb, bool closed = false);
  /// Words centred on x with their base line at y, in one of OpenCV's own stroke fonts.
  void words(const std::string& text, Point2d base, double cap_mm, double stroke_mm, int rgb);

  cv::Mat picture() const;

 private:
  cv::Point pixel(const Point2d& mm) const;
  std::vector<cv::Point> pixels(const Outline& outline) const;
  /// The part of the image that the outline touches, and the outline as a mask of that part.
  std::pair<cv::Rect, cv::Mat> mask_of(const Outline& outline) const;

  CardFormat format_;
  double px_per_mm_;
  cv::Mat image_;
};

}  // namespace bird_deck
