#include "stats/sample.h"

#include "core/expect.h"
#include "core/linear_algebra.h"

namespace versolay::stats {
namespace {

/// Of a correlation matrix: less is rounding.
constexpr double kSmallestEigenvalue = 1e-9;

}  // namespace

Eigen::MatrixXd Sample::covariance() const {
  expect(dof >= 1);
  return scatter / dof;
}

Sample sample_of(const Eigen::MatrixXd& rows) {
  expect(rows.rows() >= 1);
  Sample s;
  s.n = static_cast<int>(rows.rows());
  s.dof = s.n - 1;
  s.mean = rows.colwise().mean();
  const Eigen::MatrixXd centred = rows.rowwise() - s.mean.transpose();
  s.scatter = centred.transpose() * centred;
  return s;
}

Sample pooled(std::span<const Sample> samples) {
  expect(!samples.empty());
  Sample all;
  all.mean = Eigen::VectorXd::Zero(samples.front().mean.size());
  all.scatter = Eigen::MatrixXd::Zero(all.mean.size(), all.mean.size());
  for (const Sample& s : samples) {
    all.mean += s.n * s.mean;
    all.scatter += s.scatter;
    all.n += s.n;
    all.dof += s.dof;
  }
  all.mean /= all.n;
  return all;
}

bool is_singular(const Eigen::MatrixXd& covariance) {
  if (covariance.diagonal().minCoeff() <= 0) return true;
  const Eigen::VectorXd inverse = covariance.diagonal().cwiseSqrt().cwiseInverse();
  const Eigen::MatrixXd correlation = inverse.asDiagonal() * covariance * inverse.asDiagonal();
  return eigenvalues_of(correlation)[0] <= kSmallestEigenvalue;
}

Eigen::MatrixXd root_of_scatter(const Eigen::MatrixXd& symmetric) {
  const Eigen::VectorXd scale = symmetric.diagonal().cwiseMax(0.0).cwiseSqrt();
  const Eigen::VectorXd inverse = scale.unaryExpr([](double s) { return s > 0 ? 1 / s : 0.0; });
  const Eigensystem solved =
      eigensystem_of(inverse.asDiagonal() * symmetric * inverse.asDiagonal());
  const auto rank = (solved.eigenvalues.array() > kSmallestEigenvalue).count();
  const Eigen::MatrixXd root =
      solved.eigenvectors.rightCols(rank) * solved.eigenvalues.tail(rank).cwiseSqrt().asDiagonal();
  return scale.asDiagonal() * lower_root(root);
}

Eigen::MatrixXd root_of_difference(const Eigen::MatrixXd& observed, const Eigen::MatrixXd& known) {
  const Eigen::VectorXd scale = observed.diagonal().cwiseMax(0.0).cwiseSqrt();
  const Eigen::VectorXd inverse = scale.unaryExpr([](double s) { return s > 0 ? 1 / s : 0.0; });
  return scale.asDiagonal() *
         symmetric_root(inverse.asDiagonal() * (observed - known) * inverse.asDiagonal());
}

}  // namespace versolay::stats
