// Light values between pixels.
#pragma once

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "scan/scan.h"
#include "versolay/frames.h"

namespace versolay {

/// Pixels per mm of the page, mean of both directions.
inline double px_per_mm(const Affine<ScanPx, PageMm>& scan_from_page) {
  return std::sqrt(std::abs(scan_from_page.linear().determinant()));
}

/// Step of a profile across an edge, mm: half a pixel, but no finer than any edge is sharp.
inline double profile_step_mm(const Affine<ScanPx, PageMm>& scan_from_page) {
  constexpr double kFinestMm = 0.04;
  return std::max(0.5 / px_per_mm(scan_from_page), kFinestMm);
}

/// Bilinear interpolation. A pixel's value applies at its centre, (column + 0.5, row + 0.5).
class Sampler {
 public:
  explicit Sampler(const GreyImage& image) : image_(&image) {}

  int width_px() const { return image_->width; }
  int height_px() const { return image_->height; }

  /// True when `p` and `margin_px` around it lie in the image.
  bool inside(const Point<ScanPx>& p, double margin_px = 1.0) const {
    return p.x >= margin_px && p.y >= margin_px && p.x <= image_->width - margin_px &&
           p.y <= image_->height - margin_px;
  }

  /// Precondition: inside(p, 1).
  double at(const Point<ScanPx>& p) const {
    const double column = p.x - 0.5;
    const double row = p.y - 0.5;
    const int x = std::min(static_cast<int>(column), image_->width - 2);
    const int y = std::min(static_cast<int>(row), image_->height - 2);
    const double right = column - x;
    const double down = row - y;
    const std::uint8_t* upper = image_->row(y) + x;
    const std::uint8_t* lower = image_->row(y + 1) + x;
    return (1.0 - down) * (upper[0] + right * (upper[1] - upper[0])) +
           down * (lower[0] + right * (lower[1] - lower[0]));
  }

 private:
  const GreyImage* image_;
};

}  // namespace versolay
