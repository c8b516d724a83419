// How far the backs of nine cards on A4 lie off, for studies that play jobs.
#pragma once

#include <algorithm>
#include <vector>

#include "layout/grid.h"
#include "versolay/layout.h"
#include "versolay/registration.h"

namespace versolay {

inline CardGrid nine_cards() { return centred_grid({63, 88}, 3, 3, 0.0); }

/// Adds, for every card of a sheet, how far its worst corner is off in x and in y.
/// @param e  dx, dy mm and rotation mrad that are left after the correction.
inline void add_card_errors(const Eigen::Vector3d& e, const CardGrid& grid,
                            std::vector<Eigen::Vector2d>& errors) {
  for (const Cell& cell : grid.cells) {
    Eigen::Vector2d worst(0, 0);
    for (const double sx : {-0.5, 0.5}) {
      for (const double sy : {-0.5, 0.5}) {
        const double px = -cell.centre.x + sx * grid.card.width_mm;
        const double py = cell.centre.y + sy * grid.card.height_mm;
        worst.x() = std::max(worst.x(), std::abs(e[0] - e[2] * 1e-3 * py));
        worst.y() = std::max(worst.y(), std::abs(e[1] + e[2] * 1e-3 * px));
      }
    }
    errors.push_back(worst);
  }
}

inline double good_share(const std::vector<Eigen::Vector2d>& errors, double x_mm, double y_mm) {
  const auto good = std::count_if(errors.begin(), errors.end(), [&](const Eigen::Vector2d& e) {
    return e.x() <= x_mm && e.y() <= y_mm;
  });
  return static_cast<double>(good) / static_cast<double>(errors.size());
}

}  // namespace versolay
