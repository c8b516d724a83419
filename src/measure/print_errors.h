// Position errors of the ink caused by the printer's swaths and rollers.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "versolay/frames.h"

namespace versolay {

/// Matern 5/2: twice differentiable, as the motion of things with mass is.
double correlation(double distance_mm, double length_mm);

/// Covariance of an error (x, y on the page), mm^2, that varies along one axis of the page and is
/// the same all across it. [0]: varies with the page's x; [1]: with its y.
struct PrintErrors {
  std::array<Eigen::Matrix2d, 2> varying_along_mm2 = {Eigen::Matrix2d::Zero(),
                                                      Eigen::Matrix2d::Zero()};
};

/// Joint covariance of these errors at places of the page, 2n x 2n: x, y of the first place, ...
/// Places within about a centimetre of each other along the axis share them.
Eigen::MatrixXd covariance_mm2(const PrintErrors& errors, const std::vector<Point<PageMm>>& places);

}  // namespace versolay
