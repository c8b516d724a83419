#include "core/linear_algebra.h"

#include <Eigen/Dense>
#include <cmath>

namespace versolay {

using Eigen::MatrixXd;
using Eigen::VectorXd;

MatrixXd product(const MatrixXd& a, const MatrixXd& b) { return a * b; }

MatrixXd inner_product(const MatrixXd& a, const MatrixXd& b) { return a.transpose() * b; }

MatrixXd outer_product(const MatrixXd& a, const MatrixXd& b) { return a * b.transpose(); }

MatrixXd propagated(const MatrixXd& a, const MatrixXd& b) {
  return outer_product(product(a, b), a);
}

MatrixXd inverse_of(const MatrixXd& square) { return square.inverse(); }

Cholesky::Cholesky(const MatrixXd& covariance) {
  const Eigen::LLT<MatrixXd> llt(covariance);
  exists_ = llt.info() == Eigen::Success;
  lower_ = llt.matrixLLT();
}

MatrixXd Cholesky::solve(const MatrixXd& right) const { return whitened_back(whitened(right)); }

VectorXd Cholesky::solve(const VectorXd& right) const {
  VectorXd solution = whitened(right);
  lower_.triangularView<Eigen::Lower>().transpose().solveInPlace(solution);
  return solution;
}

MatrixXd Cholesky::inverse() const {
  return solve(MatrixXd(MatrixXd::Identity(lower_.rows(), lower_.rows())));
}

MatrixXd Cholesky::whitened(const MatrixXd& rows) const {
  return lower_.triangularView<Eigen::Lower>().solve(rows);
}

VectorXd Cholesky::whitened(const VectorXd& values) const {
  return lower_.triangularView<Eigen::Lower>().solve(values);
}

MatrixXd Cholesky::whitened_back(const MatrixXd& white) const {
  return lower_.triangularView<Eigen::Lower>().transpose().solve(white);
}

double Cholesky::log_determinant() const { return 2.0 * lower_.diagonal().array().log().sum(); }

Eigensystem eigensystem_of(const MatrixXd& symmetric) {
  const Eigen::SelfAdjointEigenSolver<MatrixXd> solver(symmetric);
  return {solver.eigenvalues(), solver.eigenvectors()};
}

VectorXd eigenvalues_of(const MatrixXd& symmetric) {
  return Eigen::SelfAdjointEigenSolver<MatrixXd>(symmetric, Eigen::EigenvaluesOnly).eigenvalues();
}

MatrixXd symmetric_root(const MatrixXd& symmetric) {
  constexpr double kRounding = 1e-14;  // of the largest: its root would be 1e-7 of nothing
  const Eigensystem solved = eigensystem_of(symmetric);
  const double least = kRounding * solved.eigenvalues.lpNorm<Eigen::Infinity>();
  const VectorXd roots =
      solved.eigenvalues.unaryExpr([least](double e) { return e > least ? std::sqrt(e) : 0.0; });
  return propagated(solved.eigenvectors, MatrixXd(roots.asDiagonal()));
}

MatrixXd lower_root(const MatrixXd& root) {
  if (root.size() == 0) return root;
  const Eigen::HouseholderQR<MatrixXd> qr(root.transpose());
  MatrixXd upper = qr.matrixQR().triangularView<Eigen::Upper>();
  for (Eigen::Index i = 0; i < upper.rows(); ++i) {
    if (upper(i, i) < 0) upper.row(i) *= -1;
  }
  return upper.transpose();
}

MatrixXd solve_symmetric(const MatrixXd& normal, const MatrixXd& right) {
  return normal.ldlt().solve(right);
}

VectorXd solve_symmetric(const MatrixXd& normal, const VectorXd& right) {
  return normal.ldlt().solve(right);
}

LeastSquaresFit least_squares(const MatrixXd& rows, const VectorXd& right) {
  const Eigen::ColPivHouseholderQR<MatrixXd> qr(rows);
  return {qr.solve(right), qr.rank() == rows.cols()};
}

}  // namespace versolay
