// The fiducial distribution of a normal population given a small sample, as random draws.
#pragma once

#include <Eigen/Core>
#include <optional>
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
/// The covariance V of the measurement is taken out of the spread, R R' - V with negative
/// eigenvalues set to 0, but stays in the uncertainty of the mean. V itself is an estimate: with
/// `dof` degrees of freedom each draw takes V dof / chi2_dof.
///
/// Sessions that differ (SessionMeans): the future feeds are those of future sessions. T from the
/// session means likewise; T T' estimates S + R R' / feeds_per_session, S the spread between
/// sessions; the mean is the mean of the session means.
/// Source  Hannig, Statistica Sinica 19, 2009 (generalised fiducial inference); Bartlett
/// decomposition: Anderson, Multivariate Statistical Analysis, section 7.2.
class FiducialSampler {
 public:
  /// Preconditions: sample.dof >= 1, sample.n >= 1.
  /// @param dof_share  1: the sample is taken at its word; less: as if it had that share of its
  ///                   degrees of freedom, same covariance.
  explicit FiducialSampler(const Sample& sample, double dof_share = 1.0);

  /// A population as observed, measuring error included.
  Population draw(Random& random) const;
  int rank() const { return static_cast<int>(root_.cols()); }

 private:
  Eigen::VectorXd mean_;
  int n_;
  double dof_;
  std::vector<int> varying_;  // components that vary
  Eigen::VectorXd scale_;     // sqrt(diag(scatter)) of these
  Eigen::MatrixXd root_;      // L / scale: rows as varying_
};

/// Covariance of one reading, p x p, PSD; how well it is known (0: exactly).
struct Measurement {
  Eigen::MatrixXd covariance;
  double dof = 0.0;
};

/// Means of sessions that are a sample of sessions themselves.
struct SessionMeans {
  Sample means;  // n sessions, n - 1 degrees of freedom
  double feeds_per_session = 1.0;
};

/// Draws of future feeds: spread of the printer without the measurement error, about a mean that is
/// known only from the sample.
class FutureSampler {
 public:
  FutureSampler(const Sample& feeds, const Measurement& measurement,
                const std::optional<SessionMeans>& sessions, double dof_share);

  Population draw(Random& random) const;

 private:
  /// Root of a difference of covariances, negative eigenvalues taken as 0.
  Eigen::MatrixXd clipped_root(const Eigen::MatrixXd& difference) const;

  FiducialSampler feeds_;
  std::optional<FiducialSampler> sessions_;
  double feeds_per_session_ = 1.0;
  Eigen::VectorXd scale_;     // sd of the components, to weight mm, mrad and ppm equally
  std::vector<int> varying_;  // components with an sd
  Measurement measurement_;
  bool measured_;
};

}  // namespace versolay::stats
