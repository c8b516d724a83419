#include "registration/least_squares.h"

#include <Eigen/SVD>

namespace versolay {

Eigen::MatrixXd LeastSquaresSolution::weighted_design() const {
  return whitener.whitened_back(white_design.topRows(whitener.rows()));
}

std::optional<LeastSquaresSolution> solve(const LeastSquaresProblem& problem,
                                          const Eigen::MatrixXd& stated) {
  LeastSquaresSolution solution;
  solution.whitener = Cholesky(problem.whole_covariance(stated));
  if (!solution.whitener.exists()) return std::nullopt;
  const Eigen::Index n = problem.design.rows();
  Eigen::MatrixXd& design = solution.white_design;
  design = Eigen::MatrixXd::Zero(n + problem.prior.rows(), problem.design.cols());
  design.topRows(n) = solution.whitener.whitened(problem.design);
  design.bottomLeftCorner(problem.prior.rows(), problem.prior.cols()) = problem.prior;
  Eigen::VectorXd value = Eigen::VectorXd::Zero(design.rows());
  value.head(n) = solution.whitener.whitened(problem.value);

  // Columns differ in unit by orders of magnitude; scaled, the rank decision means something.
  const Eigen::VectorXd scale = design.topRows(n).colwise().norm();
  if ((scale.array() <= 0.0).any()) return std::nullopt;
  const Eigen::MatrixXd scaled = design * scale.cwiseInverse().asDiagonal();
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
  if (svd.singularValues().tail<1>()[0] < 1e-4 * svd.singularValues()[0]) return std::nullopt;
  solution.parameters = scale.cwiseInverse().asDiagonal() * svd.solve(value);
  const Eigen::MatrixXd shares =
      svd.matrixV() * svd.singularValues().array().square().inverse().matrix().asDiagonal();
  const Eigen::MatrixXd inverse_normal = outer_product(shares, svd.matrixV());
  solution.covariance =
      scale.cwiseInverse().asDiagonal() * inverse_normal * scale.cwiseInverse().asDiagonal();
  return solution;
}

Eigen::MatrixXd covariance_under(const Eigen::MatrixXd& errors, const LeastSquaresProblem& problem,
                                 const LeastSquaresSolution& solution) {
  const Eigen::MatrixXd weighted = solution.weighted_design();
  Eigen::MatrixXd middle =
      inner_product(weighted, product(problem.whole_covariance(errors), weighted));
  const Eigen::Index free_count = problem.prior.cols();
  middle.topLeftCorner(free_count, free_count) += inner_product(problem.prior, problem.prior);
  return propagated(solution.covariance, middle);  // it is symmetric
}

}  // namespace versolay
