#include "measure/page_view.h"

#include <cmath>

namespace versolay {
namespace {

constexpr double kPageLimitMm = 0.35;  // scanners wobble and sag by this much and more
constexpr int kLeastRings = 8;
constexpr int kLeastCameraRings = 16;
constexpr std::size_t kLeastCameraCorners = 16;  // of four tags
constexpr double kNoLimitMm = 1e6;
constexpr double kAskewMm = 0.25;  // rms that no usual scanner leaves
constexpr double kCameraShare = 0.5;

/// How much an affine map leaves of these pairs.
double affine_rms_mm(const std::vector<PagePair>& pairs) {
  const auto fit = fit_page(pairs, kNoLimitMm, kLeastRings);
  return fit ? fit->residual_rms_mm : 0.0;
}

bool is_a_photograph(const CameraMap& camera) {
  const double affine = affine_rms_mm(camera.kept());
  return affine > kAskewMm && camera.residual_rms_mm() < kCameraShare * affine;
}

}  // namespace

PageView PageView::from_tags(const Affine<ScanPx, PageMm>& scan_from_page,
                             const std::vector<PagePair>& corners, int width_px, int height_px) {
  PageView view;
  view.page_from_scan_ = scan_from_page.inverse();
  if (corners.size() < kLeastCameraCorners) return view;
  auto camera = CameraMap::fit(corners, width_px, height_px, static_cast<int>(kLeastCameraCorners));
  if (camera && is_a_photograph(*camera)) view.camera_ = std::move(camera);
  return view;
}

std::optional<PageView> PageView::from_rings(const std::vector<PagePair>& rings, int width_px,
                                             int height_px) {
  PageView view;
  auto camera = CameraMap::fit(rings, width_px, height_px, kLeastCameraRings);
  const bool photograph = camera && is_a_photograph(*camera);
  const auto page = photograph ? fit_page(camera->kept(), kNoLimitMm, kLeastRings)
                               : fit_page(rings, kPageLimitMm, kLeastRings);
  if (!page) return std::nullopt;
  view.page_from_scan_ = page->page_from_scan;
  view.residual_rms_mm_ = photograph ? camera->residual_rms_mm() : page->residual_rms_mm;
  view.used_ = page->used;
  if (photograph) view.camera_ = std::move(camera);
  return view;
}

Affine<ScanPx, PageMm> PageView::scan_from_page_around(const Point<PageMm>& p) const {
  return camera_ ? camera_->scan_from_page_around(p) : page_from_scan_.inverse();
}

}  // namespace versolay
