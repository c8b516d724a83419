// The scanner's geometry: which place on the glass each pixel of the picture sees, and the pose of
// the sheet on the glass.
#pragma once

#include <array>

#include "rehearse/settings.h"
#include "rehearse/simulation_frames.h"
#include "rehearse/simulation_random.h"

namespace versolay::rehearse {

/// A place on the glass as the scanner believes it: pixel / dpi, from the upper-left corner.
struct BelievedMm {};

/// One scan's picture geometry. With (x, y) the believed mm, (X, Y) the true ones, c the centre:
///   X = c + (x - c) / (1 + scale_x) + shear (y - c) + stretch(x) + wobble_across(y)
///   Y = c + (y - c) / (1 + scale_y) + sag(x) + wobble(y)
/// Each is a sum of a function of the column and a function of the row, so that a picture can be
/// made from two pairs of tables.
class Bed {
 public:
  Bed(double width_mm, double height_mm, const ScannerSettings& settings, Random random);

  int width_px() const { return width_px_; }
  int height_px() const { return height_px_; }
  double mm_per_px() const { return mm_per_px_; }

  struct Part {
    double x;
    double y;
  };
  Part column_part(double believed_x_mm) const;
  Part row_part(double believed_y_mm) const;
  Point<BedMm> bed_from_px(const Point<ScanPx>& px) const;
  /// The inverse of bed_from_px, by iteration; error below 1e-9 px.
  Point<ScanPx> px_from_bed(const Point<BedMm>& bed) const;

 private:
  struct Wave {
    double amplitude_mm;
    double per_mm;  // angular frequency
    double phase;
  };
  static constexpr int kWaves = 5;

  ScannerSettings settings_;
  double width_mm_;
  double height_mm_;
  double mm_per_px_;
  int width_px_;
  int height_px_;
  std::array<Wave, kWaves> along_;
  std::array<Wave, kWaves> across_;
};

/// Pose of a sheet: rotated clockwise by `orientation_deg` + `skew_deg`, its centre at `centre`.
struct Pose {
  int orientation_deg = 0;
  double skew_deg = 0.0;
  Eigen::Vector2d centre_mm{0.0, 0.0};
  double growth = 1.0;  // of the sheet, since it was printed

  Affine<BedMm, SheetMm> bed_from_sheet() const;
};

}  // namespace versolay::rehearse
