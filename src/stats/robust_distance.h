// Multivariate outliers, from all components together. A diagnostic: no estimate of this program
// depends on it.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <optional>
#include <vector>

namespace versolay::stats {

/// Minimum covariance determinant: centre and covariance come from the half of the rows that are
/// closest together, so that outliers cannot mask themselves by shifting a mean.
struct RobustDistances {
  Eigen::VectorXd centre;         // reweighted
  Eigen::MatrixXd covariance;     // reweighted
  std::vector<double> distances;  // of every row from the centre, in standard deviations
  bool exact = false;             // all halves were looked at, not a choice of them
};

/// Of n rows with p components, h = (n + p + 1) / 2 are looked for whose covariance has the
/// smallest determinant: among all, where there are few; else by concentration from random starts.
/// Rows within the 97.5 % ellipsoid of these give the reweighted centre and covariance. nullopt: n
/// < 2 (p + 1), or half of the rows lie in one plane (equal or coarse readings). Source  Rousseeuw
/// & Van Driessen, Technometrics 41, 1999 (FAST-MCD); consistency factor: Croux & Haesbroeck, J.
/// Multivariate Analysis 71, 1999.
std::optional<RobustDistances> robust_distances(const Eigen::MatrixXd& rows);

/// What the largest of the n distances exceeds with probability alpha when all rows are normal.
/// Simulated: with few rows it is far above the quantile of chi. Precondition: n >= 2 (p + 1).
double robust_distance_limit(int n, int p, double alpha, std::uint64_t seed, int threads = 0);

}  // namespace versolay::stats
