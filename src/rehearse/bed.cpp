#include "rehearse/bed.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

namespace versolay::rehearse {
namespace {

constexpr double kLongestWaveMm = 150.0;
constexpr double kShortestWaveMm = 15.0;

}  // namespace

Bed::Bed(double width_mm, double height_mm, const ScannerSettings& settings, Random random)
    : settings_(settings),
      width_mm_(width_mm),
      height_mm_(height_mm),
      mm_per_px_(25.4 / settings.dpi),
      width_px_(static_cast<int>(std::lround(width_mm / mm_per_px_))),
      height_px_(static_cast<int>(std::lround(height_mm / mm_per_px_))) {
  const auto waves = [&](double rms_um) {
    std::array<Wave, kWaves> made;
    for (int i = 0; i < kWaves; ++i) {
      const double share = (i + random.uniform(0.2, 0.8)) / kWaves;
      const double length = kLongestWaveMm * std::pow(kShortestWaveMm / kLongestWaveMm, share);
      made[static_cast<std::size_t>(i)] = {rms_um * 1e-3 * std::sqrt(2.0 / kWaves),
                                           2.0 * std::numbers::pi / length,
                                           random.uniform(0.0, 2.0 * std::numbers::pi)};
    }
    return made;
  };
  along_ = waves(settings.wobble_um);
  across_ = waves(settings.wobble_across_um);
}

Bed::Part Bed::column_part(double x) const {
  const double from_centre = x - width_mm_ / 2.0;
  const double bent = 4.0 * from_centre * from_centre / (width_mm_ * width_mm_);
  return {width_mm_ / 2.0 + from_centre / (1.0 + settings_.scale_x_ppm * 1e-6) +
              settings_.stretch_um * 1e-3 * bent,
          settings_.sag_um * 1e-3 * bent};
}

Bed::Part Bed::row_part(double y) const {
  const double from_centre = y - height_mm_ / 2.0;
  Part part{settings_.shear_mrad * 1e-3 * from_centre,
            height_mm_ / 2.0 + from_centre / (1.0 + settings_.scale_y_ppm * 1e-6)};
  for (const Wave& w : across_) part.x += w.amplitude_mm * std::sin(w.per_mm * y + w.phase);
  for (const Wave& w : along_) part.y += w.amplitude_mm * std::sin(w.per_mm * y + w.phase);
  return part;
}

Point<BedMm> Bed::bed_from_px(const Point<ScanPx>& px) const {
  const Part column = column_part(px.x * mm_per_px_);
  const Part row = row_part(px.y * mm_per_px_);
  return {column.x + row.x, column.y + row.y};
}

Point<ScanPx> Bed::px_from_bed(const Point<BedMm>& bed) const {
  Point<ScanPx> px{bed.x / mm_per_px_, bed.y / mm_per_px_};
  for (int i = 0; i < 50; ++i) {  // the map is within a few per cent of px * mm_per_px
    const Point<BedMm> reached = bed_from_px(px);
    px.x += (bed.x - reached.x) / mm_per_px_;
    px.y += (bed.y - reached.y) / mm_per_px_;
  }
  return px;
}

Affine<BedMm, SheetMm> Pose::bed_from_sheet() const {
  const double angle = (orientation_deg + skew_deg) * std::numbers::pi / 180.0;
  // y is down, so that a positive angle turns clockwise as seen.
  return {growth * Eigen::Rotation2Dd(angle).toRotationMatrix(), centre_mm};
}

}  // namespace versolay::rehearse
