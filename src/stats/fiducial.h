// What is known of a normal population after a small sample, as random draws.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "stats/random.h"
#include "stats/sample.h"

namespace versolay::stats {

/// One credible population: observations are mean + root * z, z standard normal.
struct Population {
  Eigen::VectorXd mean;
  Eigen::MatrixXd root;  // p x q
};

/// Generalised-fiducial draws of the population behind a sample. With scatter = L L' of rank r and
/// dof f, a lower triangular A (Bartlett) with A_ii^2 ~ chi2(f + r - 1 - i), i = 0..r-1, and
/// N(0, 1) below the diagonal gives
///   spread = R R', R = L A^-T;   mean = sample mean + R z / sqrt(n).
/// In one dimension this is sd^2 = scatter / chi2_f, and the tolerance bound that it leads to is
/// the exact one. A sample with fewer observations than components (rank < p) is allowed;
/// components that never vary stay fixed.
///
/// A known covariance V of the measurement is taken out of the spread, R R' - V with negative
/// eigenvalues set to 0, but stays in the uncertainty of the mean.
/// Source  Hannig, Statistica Sinica 19, 2009 (generalised fiducial inference); Bartlett
/// decomposition: Anderson, Multivariate Statistical Analysis, section 7.2.
class FiducialSampler {
 public:
  /// Preconditions: sample.dof >= 1, sample.n >= 1; measurement p x p, PSD.
  FiducialSampler(const Sample& sample, const Eigen::MatrixXd& measurement);

  Population draw(Random& random) const;
  int rank() const { return static_cast<int>(root_.cols()); }

 private:
  Eigen::VectorXd mean_;
  int n_;
  int dof_;
  std::vector<int> varying_;     // components that vary
  Eigen::VectorXd scale_;        // sqrt(diag(scatter)) of these
  Eigen::MatrixXd root_;         // L / scale: rows as varying_
  Eigen::MatrixXd measurement_;  // V / (scale scale'), rows and columns as varying_
  bool measurement_is_known_;
};

}  // namespace versolay::stats
