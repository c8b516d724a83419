#include "rehearse/hole_view.h"

#include <cmath>
#include <numbers>

namespace versolay::rehearse {

double Rim::distance_outside_mm(const Eigen::Vector2d& p) const {
  const Eigen::Vector2d d = p - centre_mm;
  double radius = radius_mm;
  if (amplitude_mm[0] != 0.0 || amplitude_mm[1] != 0.0) {
    const double angle = std::atan2(d.y(), d.x());
    radius += amplitude_mm[0] * std::cos(2.0 * (angle - phase_rad[0])) +
              amplitude_mm[1] * std::cos(3.0 * (angle - phase_rad[1]));
  }
  return d.norm() - radius;
}

Rim seen_from_behind(const Rim& rim, TurnAxis axis) {
  Rim seen = rim;
  seen.centre_mm = back_from_front(axis)(Point<SheetFrontMm>::from(rim.centre_mm)).vec();
  for (double& phase : seen.phase_rad) {
    phase = axis == TurnAxis::vertical ? std::numbers::pi - phase : -phase;
  }
  return seen;
}

}  // namespace versolay::rehearse
