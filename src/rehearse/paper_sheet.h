// One sheet of paper as an object: its outline, and the holes in it.
#pragma once

#include <array>
#include <vector>

#include "rehearse/hole_view.h"
#include "rehearse/settings.h"
#include "rehearse/simulation_random.h"

namespace versolay::rehearse {

/// A stray drop of ink on one side.
struct Blot {
  Eigen::Vector2d centre_mm{0.0, 0.0};  // in SheetMm of its side
  double radius_mm = 0.0;
};

/// An edge, not quite straight and not quite where it should be: its position is
/// offset + slope * s + bow * (1 - (2 s / length)^2) beyond its nominal place, s along the edge.
struct PaperEdge {
  double offset_mm = 0.0;
  double slope = 0.0;
  double bow_mm = 0.0;
};

struct PaperSheet {
  Paper nominal;
  TurnAxis axis = TurnAxis::vertical;
  std::array<PaperEdge, 4> edges;  // left, right, top, bottom, seen from the front
  double torn_corner_mm = 0.0;     // at the lower right corner of the front
  double tear_phase = 0.0;
  std::vector<Hole> holes;
  std::array<std::vector<Blot>, 2> blots;  // front, back

  /// mm inside the outline of the sheet (negative outside), holes not regarded.
  double distance_inside_mm(Side side, const Eigen::Vector2d& p_in_sheet) const;
  /// Everything within this distance of the centre lines is paper for certain: |x| < safe.x() and
  /// |y| < safe.y(), but for holes.
  Eigen::Vector2d safely_inside_mm() const;
  const Rim& rim(const Hole& hole, Side side) const {
    return side == Side::recto ? hole.front : hole.back;
  }
};

PaperSheet draw_sheet(const Paper& paper, TurnAxis axis, const PaperSettings& settings,
                      Random random);

}  // namespace versolay::rehearse
