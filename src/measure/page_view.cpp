#include "measure/page_view.h"

#include <cmath>
#include <numbers>

namespace versolay {
namespace {

constexpr double kPageLimitMm = 0.35;  // scanners wobble and sag by this much and more
constexpr int kLeastRingsOfAPage = 8;
constexpr int kLeastCameraRings = 16;
constexpr int kLeastCameraCorners = 16;  // of four tags
constexpr double kNoLimitMm = 1e6;
constexpr double kAskewMm = 0.02;     // less is as straight as a scan
constexpr double kCameraShare = 0.5;  // scanners, simulated with six times their usual faults: 0.64

/// How much an affine map leaves of these pairs.
double affine_rms_mm(const std::vector<PagePair>& pairs) {
  const auto fit = fit_page(pairs, kNoLimitMm, kLeastRingsOfAPage);
  return fit ? fit->residual_rms_mm : 0.0;
}

bool is_a_photograph(const CameraMap& camera) {
  const double affine = affine_rms_mm(camera.kept());
  return affine > kAskewMm && camera.residual_rms_mm() < kCameraShare * affine;
}

}  // namespace

std::optional<PageView> PageView::of_camera(const std::vector<PagePair>& corners, int width_px,
                                            int height_px) {
  auto camera = CameraMap::fit(corners, width_px, height_px, kLeastCameraCorners);
  if (!camera) return std::nullopt;
  PageView view;
  view.camera_ = std::move(camera);
  return view;
}

std::optional<PageView> PageView::from_rings(const std::vector<PagePair>& rings, int width_px,
                                             int height_px) {
  PageView view;
  auto camera = CameraMap::fit(rings, width_px, height_px, kLeastCameraRings);
  const bool photograph = camera && is_a_photograph(*camera);
  const auto page = photograph ? fit_page(camera->kept(), kNoLimitMm, kLeastRingsOfAPage)
                               : fit_page(rings, kPageLimitMm, kLeastRingsOfAPage);
  if (!page) return std::nullopt;
  view.page_from_scan_ = page->page_from_scan;
  view.scan_from_page_ = page->page_from_scan.inverse();
  view.residual_rms_mm_ = photograph ? camera->residual_rms_mm() : page->residual_rms_mm;
  view.used_ = page->used;
  if (photograph) view.camera_ = std::move(camera);
  return view;
}

Affine<ScanPx, PageMm> PageView::scan_from_page_around(const Point<PageMm>& p) const {
  return camera_ ? camera_->scan_from_page_around(p) : scan_from_page_;
}

Affine<PageMm, ScanPx> PageView::page_from_scan_around(const Point<PageMm>& p) const {
  return camera_ ? camera_->scan_from_page_around(p).inverse() : page_from_scan_;
}

Point<PageMm> PageView::page_from_scan(const Point<ScanPx>& p) const {
  return camera_ ? camera_->page_from_scan(p) : page_from_scan_(p);
}

/// How far off is told by a circle that is put through the camera's map.
Point<ScanPx> PageView::true_middle(const Point<PageMm>& place, const Point<ScanPx>& seen,
                                    double radius_mm) const {
  if (!camera_) return seen;
  constexpr int kPlaces = 16;
  const auto page_from_scan = page_from_scan_around(place);
  Eigen::Vector2d off = Eigen::Vector2d::Zero();
  for (int i = 0; i < kPlaces; ++i) {
    const double angle = 2 * std::numbers::pi * i / kPlaces;
    const Eigen::Vector2d direction(std::cos(angle), std::sin(angle));
    const auto rim =
        camera_->scan_from_page(Point<PageMm>::from(place.vec() + radius_mm * direction));
    const double radius = (page_from_scan(rim).vec() - place.vec()).norm();
    off += 2.0 / kPlaces * (radius - radius_mm) * direction;
  }
  return Point<ScanPx>::from(seen.vec() - page_from_scan.inverse().linear() * off);
}

Point<ScanPx> PageView::flattened(const Point<ScanPx>& p) const {
  constexpr double kPxPerMm = 10.0;
  if (!camera_) return p;
  return Point<ScanPx>::from(kPxPerMm * camera_->page_from_scan(p).vec());
}

}  // namespace versolay
