#include "stats/fiducial.h"

#include <Eigen/Eigenvalues>
#include <cassert>
#include <cmath>

namespace versolay::stats {

FiducialSampler::FiducialSampler(const Sample& sample, const Eigen::MatrixXd& measurement)
    : mean_(sample.mean), n_(sample.n), dof_(sample.dof) {
  assert(sample.dof >= 1 && sample.n >= 1);
  for (int i = 0; i < mean_.size(); ++i) {
    if (sample.scatter(i, i) > 0) varying_.push_back(i);
  }
  scale_ = sample.scatter.diagonal()(varying_).cwiseSqrt();
  const Eigen::VectorXd inverse = scale_.cwiseInverse();
  const Eigen::MatrixXd scaled =
      inverse.asDiagonal() * sample.scatter(varying_, varying_) * inverse.asDiagonal();
  measurement_ = inverse.asDiagonal() * measurement(varying_, varying_) * inverse.asDiagonal();
  measurement_is_known_ = !varying_.empty() && measurement_.cwiseAbs().maxCoeff() > 0;

  // The units differ by component (mm, mrad, ppm): scaled, the rank can be told by one threshold.
  constexpr double kSmallest = 1e-9;
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(scaled);
  const int p = static_cast<int>(varying_.size());
  int rank = 0;
  for (int i = 0; i < p; ++i) rank += solver.eigenvalues()[i] > kSmallest ? 1 : 0;
  root_ = solver.eigenvectors().rightCols(rank) *
          solver.eigenvalues().tail(rank).cwiseSqrt().asDiagonal();
}

Population FiducialSampler::draw(Random& random) const {
  const int r = rank();
  Eigen::MatrixXd bartlett = Eigen::MatrixXd::Zero(r, r);
  for (int i = 0; i < r; ++i) {
    bartlett(i, i) = std::sqrt(random.chi_squared(dof_ + r - 1 - i));
    for (int j = 0; j < i; ++j) bartlett(i, j) = random.normal();
  }
  Eigen::VectorXd z(r);
  for (double& value : z) value = random.normal();

  // R = L A^-T, row by row of L.
  const Eigen::MatrixXd spread_root =
      bartlett.triangularView<Eigen::Lower>().solve(root_.transpose()).transpose();
  Population population;
  population.mean = mean_;
  population.mean(varying_) +=
      scale_.cwiseProduct(spread_root * z) / std::sqrt(static_cast<double>(n_));
  const Eigen::MatrixXd future =
      scale_.asDiagonal() * (measurement_is_known_
                                 ? psd_root(spread_root * spread_root.transpose() - measurement_)
                                 : spread_root);
  population.root = Eigen::MatrixXd::Zero(mean_.size(), future.cols());
  population.root(varying_, Eigen::all) = future;
  return population;
}

}  // namespace versolay::stats
