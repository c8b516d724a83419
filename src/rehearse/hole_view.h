// A hole through a sheet, as each side shows it.
#pragma once

#include <Eigen/Core>
#include <string>

#include "rehearse/geometry_file.h"
#include "rehearse/simulation_frames.h"

namespace versolay::rehearse {

/// The outline of a hole on one side: radius(a) = radius_mm + sum of amplitude cos(n (a - phase)),
/// n = 2 and 3; a is the angle from the x axis. The centre is the centre of the best ellipse.
struct Rim {
  Eigen::Vector2d centre_mm{0.0, 0.0};
  double radius_mm = 0.0;
  std::array<double, 2> amplitude_mm{0.0, 0.0};
  std::array<double, 2> phase_rad{0.0, 0.0};

  /// mm outside the outline (negative inside); exact for a circle, first order otherwise.
  double distance_outside_mm(const Eigen::Vector2d& p) const;
  double reach_mm() const {
    return radius_mm + std::abs(amplitude_mm[0]) + std::abs(amplitude_mm[1]);
  }
};

/// The same outline seen from the other side.
Rim seen_from_behind(const Rim& rim, TurnAxis axis);

struct Hole {
  std::string id;
  HoleKind kind = HoleKind::punch;
  bool sheet_was_turned = false;  // pricked with the sheet rotated by 180 degrees
  Rim front;                      // in SheetFrontMm
  Rim back;                       // in SheetBackMm
};

}  // namespace versolay::rehearse
