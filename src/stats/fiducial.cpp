#include "stats/fiducial.h"

#include <cmath>

#include "core/expect.h"
#include "core/linear_algebra.h"

namespace versolay::stats {

FiducialSampler::FiducialSampler(const Sample& sample, double dof_share)
    : mean_(sample.mean), n_(sample.n), dof_(sample.dof * dof_share) {
  expect(sample.dof >= 1 && sample.n >= 1 && dof_share > 0);
  for (int i = 0; i < mean_.size(); ++i) {
    if (sample.scatter(i, i) > 0) varying_.push_back(i);
  }
  scale_ = (dof_share * sample.scatter.diagonal()(varying_)).cwiseSqrt();
  const Eigen::VectorXd inverse = scale_.cwiseInverse();
  const Eigen::MatrixXd scaled = inverse.asDiagonal() *
                                 (dof_share * sample.scatter(varying_, varying_)) *
                                 inverse.asDiagonal();
  root_ = root_of_scatter(scaled);
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
      scale_.asDiagonal() *
      bartlett.triangularView<Eigen::Lower>().solve(root_.transpose()).transpose();
  Population population;
  population.mean = mean_;
  population.mean(varying_) += spread_root * z / std::sqrt(static_cast<double>(n_));
  population.root = Eigen::MatrixXd::Zero(mean_.size(), r);
  population.root(varying_, Eigen::all) = spread_root;
  return population;
}

FutureSampler::FutureSampler(const Sample& feeds, const Measurement& measurement,
                             const std::optional<SessionMeans>& sessions, double dof_share)
    : feeds_(feeds, dof_share),
      scale_(feeds.covariance().diagonal().cwiseSqrt()),
      measurement_(measurement),
      measured_(measurement.covariance.size() > 0 && !measurement.covariance.isZero(0.0)) {
  if (sessions) {
    sessions_.emplace(sessions->means, dof_share);
    feeds_per_session_ = sessions->feeds_per_session;
    scale_ = scale_.cwiseMax(sessions->means.covariance().diagonal().cwiseSqrt());
  }
  for (int i = 0; i < scale_.size(); ++i) {
    if (scale_[i] > 0) varying_.push_back(i);
  }
}

Eigen::MatrixXd FutureSampler::clipped_root(const Eigen::MatrixXd& difference) const {
  const Eigen::VectorXd scale = scale_(varying_);
  const Eigen::VectorXd inverse = scale.cwiseInverse();
  const Eigen::MatrixXd scaled =
      inverse.asDiagonal() * difference(varying_, varying_) * inverse.asDiagonal();
  Eigen::MatrixXd root = Eigen::MatrixXd::Zero(scale_.size(), scale.size());
  root(varying_, Eigen::all) = scale.asDiagonal() * symmetric_root(scaled);
  return root;
}

Population FutureSampler::draw(Random& random) const {
  Population feeds = feeds_.draw(random);
  if (!measured_ && !sessions_) return feeds;
  const Eigen::MatrixXd observed = feeds.root * feeds.root.transpose();
  if (measured_) {
    const double factor =
        measurement_.dof > 0 ? measurement_.dof / random.chi_squared(measurement_.dof) : 1.0;
    feeds.root = clipped_root(observed - factor * measurement_.covariance);
  }
  if (sessions_) {
    const Population means = sessions_->draw(random);
    const Eigen::MatrixXd between =
        clipped_root(means.root * means.root.transpose() - observed / feeds_per_session_);
    feeds.mean = means.mean;
    feeds.root = clipped_root(feeds.root * feeds.root.transpose() + between * between.transpose());
  }
  return feeds;
}

}  // namespace versolay::stats
