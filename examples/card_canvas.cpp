#include "card_canvas.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

namespace bird_deck {
namespace {

constexpr int kOversampling = 3;

cv::Scalar colour(int rgb) { return cv::Scalar(rgb & 255, (rgb >> 8) & 255, (rgb >> 16) & 255); }

}  // namespace

int mix(int a, int b, double share_of_b) {
  int mixed = 0;
  for (const int shift : {16, 8, 0}) {
    const double value =
        ((a >> shift) & 255) * (1 - share_of_b) + ((b >> shift) & 255) * share_of_b;
    mixed |= static_cast<int>(std::lround(value)) << shift;
  }
  return mixed;
}

double radians(double degrees) { return degrees * std::numbers::pi / 180.0; }

Outline smooth(const Outline& through) {
  constexpr int kSteps = 12;
  Outline curve;
  const std::size_t n = through.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point2d &a = through[(i + n - 1) % n], &b = through[i], &c = through[(i + 1) % n],
                  &d = through[(i + 2) % n];
    for (int step = 0; step < kSteps; ++step) {
      const double t = static_cast<double>(step) / kSteps;
      curve.push_back(0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t +
                             (3 * b - a - 3 * c + d) * t * t * t));
    }
  }
  return curve;
}

Outline ellipse(Point2d centre, double a, double b, double turned_deg) {
  constexpr int kCorners = 96;
  Outline curve;
  const double c = std::cos(radians(turned_deg)), s = std::sin(radians(turned_deg));
  for (int i = 0; i < kCorners; ++i) {
    const double t = 2 * std::numbers::pi * i / kCorners;
    const double x = a * std::cos(t), y = b * std::sin(t);
    curve.push_back(centre + Point2d(c * x - s * y, s * x + c * y));
  }
  return curve;
}

Outline box(Point2d from, Point2d to, double radius) {
  if (radius <= 0) return {from, {to.x, from.y}, to, {from.x, to.y}};
  Outline curve;
  const Point2d corners[] = {{to.x - radius, from.y + radius},
                             {to.x - radius, to.y - radius},
                             {from.x + radius, to.y - radius},
                             {from.x + radius, from.y + radius}};
  for (int corner = 0; corner < 4; ++corner) {
    for (int i = 0; i <= 12; ++i) {
      const double t = radians(90.0 * corner - 90.0 + 7.5 * i);
      curve.push_back(corners[corner] + radius * Point2d(std::cos(t), std::sin(t)));
    }
  }
  return curve;
}

Canvas::Canvas(const CardFormat& format)
    : format_(format),
      px_per_mm_(format.ppi / 25.4 * kOversampling),
      image_(cvRound(format.full_height_mm() * px_per_mm_ / kOversampling) * kOversampling,
             cvRound(format.full_width_mm() * px_per_mm_ / kOversampling) * kOversampling, CV_8UC3,
             colour(kPaper)) {}

void Canvas::fill(const Outline& outline, int rgb) {
  cv::fillPoly(image_, std::vector{pixels(outline)}, colour(rgb), cv::LINE_8);
}

void Canvas::fill_within(const Outline& limit, const Outline& outline, int rgb) {
  const auto [area, mask] = mask_of(outline);
  cv::Mat inside = cv::Mat::zeros(area.size(), CV_8U);
  cv::fillPoly(inside, std::vector{pixels(limit)}, 255, cv::LINE_8, 0, -area.tl());
  image_(area).setTo(colour(rgb), mask & inside);
}

void Canvas::shade(const Outline& outline, int top, int bottom) {
  const auto [area, mask] = mask_of(outline);
  for (int y = 0; y < area.height; ++y) {
    const double share = static_cast<double>(y) / area.height;
    image_(area).row(y).setTo(colour(mix(top, bottom, share)), mask.row(y));
  }
}

void Canvas::line(const Outline& through, double width_mm, int rgb, bool closed) {
  cv::polylines(image_, std::vector{pixels(through)}, closed, colour(rgb),
                std::max(1, cvRound(width_mm * px_per_mm_)), cv::LINE_8);
}

void Canvas::words(const std::string& text, Point2d base, double cap_mm, double stroke_mm,
                   int rgb) {
  constexpr int kFont = cv::FONT_HERSHEY_COMPLEX;
  constexpr double kCapUnits = 21.0;  // height of a capital at scale 1
  const double scale = cap_mm * px_per_mm_ / kCapUnits;
  const int stroke = std::max(1, cvRound(stroke_mm * px_per_mm_));
  const cv::Size size = cv::getTextSize(text, kFont, scale, stroke, nullptr);
  cv::putText(image_, text, pixel(base) - cv::Point(size.width / 2, 0), kFont, scale, colour(rgb),
              stroke, cv::LINE_8);
}

cv::Mat Canvas::picture() const {
  cv::Mat reduced;
  cv::resize(image_, reduced, image_.size() / kOversampling, 0, 0, cv::INTER_AREA);
  return reduced;
}

cv::Point Canvas::pixel(const Point2d& mm) const {
  return {cvRound(mm.x * px_per_mm_), cvRound(mm.y * px_per_mm_)};
}

std::vector<cv::Point> Canvas::pixels(const Outline& outline) const {
  std::vector<cv::Point> list;
  for (const Point2d& p : outline) list.push_back(pixel(p));
  return list;
}

std::pair<cv::Rect, cv::Mat> Canvas::mask_of(const Outline& outline) const {
  const auto shape = pixels(outline);
  const cv::Rect area = cv::boundingRect(shape) & cv::Rect({0, 0}, image_.size());
  cv::Mat mask = cv::Mat::zeros(area.size(), CV_8U);
  cv::fillPoly(mask, std::vector{shape}, 255, cv::LINE_8, 0, -area.tl());
  return {area, mask};
}

}  // namespace bird_deck
