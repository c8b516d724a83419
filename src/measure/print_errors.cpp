#include "measure/print_errors.h"

#include <cmath>

namespace versolay {
namespace {

constexpr double kSwathMm = 9.0;  // correlation length

}  // namespace

double correlation(double distance_mm, double length_mm) {
  const double r = std::sqrt(5.0) * std::abs(distance_mm) / length_mm;
  return (1.0 + r + r * r / 3.0) * std::exp(-r);
}

Eigen::MatrixXd covariance_mm2(const PrintErrors& errors,
                               const std::vector<Point<PageMm>>& places) {
  const auto n = static_cast<Eigen::Index>(places.size());
  Eigen::MatrixXd covariance(2 * n, 2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      const Eigen::Vector2d apart =
          places[static_cast<std::size_t>(i)].vec() - places[static_cast<std::size_t>(j)].vec();
      covariance.block<2, 2>(2 * i, 2 * j) =
          correlation(apart.x(), kSwathMm) * errors.varying_along_mm2[0] +
          correlation(apart.y(), kSwathMm) * errors.varying_along_mm2[1];
    }
  }
  return covariance;
}

}  // namespace versolay
