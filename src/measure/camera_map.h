// From a photograph of a page to the page: a flat sheet through a camera with a simple lens.
//
//   u = (p - middle of the picture) / half its diagonal        p: place in the picture, px
//   v = u (1 + k1 |u|^2 + k2 |u|^4)                            the lens
//   page = H v                                                 perspective, 8 numbers
//
// It models a camera to first order, so that rings are found and the remainder (paper that is not
// flat, a lens that is not simple) is smooth; kriging through the rings does the rest. The optical
// axis is assumed at the centre of the picture, so a photograph should not be cropped.
// Source  Brown, Photogrammetric Engineering 32, 1966 (radial distortion), from memory.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "measure/affine_fit.h"

namespace versolay {

/// The camera's position, in the frame of the page that it saw.
struct CameraStand {
  Point<PageMm> foot;      // of the perpendicular from the lens to the page
  double height_mm = 0.0;  // of the lens above the page
};

class CameraMap {
 public:
  /// Least squares, 10 numbers; the lens is held near a straight one (k1, k2 within 0.05 or so),
  /// so that few places do not invent a lens. Pairs that are off by more than max(0.35 mm, 4 robust
  /// standard deviations) are dropped, the worst first.
  /// @return nullopt when fewer than `least_pairs` (at least 8) remain, or they do not determine
  /// it.
  static std::optional<CameraMap> fit(const std::vector<PagePair>& pairs, int width_px,
                                      int height_px, int least_pairs);

  Point<PageMm> page_from_scan(const Point<ScanPx>& p) const;
  Point<ScanPx> scan_from_page(const Point<PageMm>& p) const;
  /// The affine map that touches this one at `p`.
  Affine<ScanPx, PageMm> scan_from_page_around(const Point<PageMm>& p) const;

  const std::vector<PagePair>& kept() const { return kept_; }
  double residual_rms_mm() const { return residual_rms_mm_; }  // one axis, of the kept pairs

  /// From the perspective, with the focal length that telephones commonly have (26 mm on film of
  /// 36 x 24 mm). Good to a third or so of the height.
  CameraStand stand() const;

 private:
  using Numbers = Eigen::Matrix<double, 10, 1>;

  CameraMap() = default;
  Eigen::Vector2d lens(const Point<ScanPx>& p) const;  // v

  Numbers numbers_ = Numbers::Zero();  // H row by row without its last 1, in 100 mm; k1, k2
  Eigen::Vector2d middle_px_{0.0, 0.0};
  double half_diagonal_px_ = 1.0;
  double residual_rms_mm_ = 0.0;
  std::vector<PagePair> kept_;
};

}  // namespace versolay
