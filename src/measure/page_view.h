// Whether a picture of a page was scanned or photographed.
#pragma once

#include <optional>
#include <vector>

#include "measure/camera_map.h"
#include "measure/scanner_map.h"

namespace versolay {

/// A map between picture and page that is good enough to find marks by.
class PageView {
 public:
  /// As a scanner sees.
  explicit PageView(const Affine<ScanPx, PageMm>& scan_from_page)
      : page_from_scan_(scan_from_page.inverse()), scan_from_page_(scan_from_page) {}

  /// As a camera sees, from the corners of the tags: to begin with.
  /// @return nullopt when there are fewer than four tags, or they do not belong together.
  static std::optional<PageView> of_camera(const std::vector<PagePair>& corners, int width_px,
                                           int height_px);

  /// From the rings. A picture is a photograph if an affine map leaves 0.02 mm (rms) or more, and
  /// a camera model less than half of that; the file's metadata are not used. Perspective or a
  /// radial lens cannot explain a scanner's faults.
  /// @return nullopt when there are too few rings, or they do not belong together.
  static std::optional<PageView> from_rings(const std::vector<PagePair>& rings, int width_px,
                                            int height_px);

  PictureKind kind() const { return camera_ ? PictureKind::photograph : PictureKind::scan; }
  const std::optional<CameraMap>& camera() const { return camera_; }

  /// The affine map that holds near a place of the page: for a scan, everywhere.
  Affine<ScanPx, PageMm> scan_from_page_around(const Point<PageMm>& p) const;
  Affine<PageMm, ScanPx> page_from_scan_around(const Point<PageMm>& p) const;
  Point<PageMm> page_from_scan(const Point<ScanPx>& p) const;
  /// One for the whole page; of a photograph, good to some millimetres.
  const Affine<PageMm, ScanPx>& page_from_scan() const { return page_from_scan_; }

  /// A camera that looks aslant sees a circle's near half larger, and so its middle nearer to
  /// itself than it is.
  /// @return where the middle of a circle at `place` is, whose outline is seen around `seen`.
  Point<ScanPx> true_middle(const Point<PageMm>& place, const Point<ScanPx>& seen,
                            double radius_mm) const;
  /// Where a scan would show what this picture shows at `p`: a camera's perspective and lens are
  /// taken out.
  Point<ScanPx> flattened(const Point<ScanPx>& p) const;

  double residual_rms_mm() const { return residual_rms_mm_; }
  int used() const { return used_; }

 private:
  PageView() = default;

  Affine<PageMm, ScanPx> page_from_scan_;
  Affine<ScanPx, PageMm> scan_from_page_;
  std::optional<CameraMap> camera_;
  double residual_rms_mm_ = 0.0;
  int used_ = 0;
};

}  // namespace versolay
