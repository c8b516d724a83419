// Products, decompositions and eigenvalues of matrices whose size is known only at run time.
//
// Eigen implements these as templates, which the compiler instantiates again in every file and for
// every expression: a decomposition costs 3 to 10 s of compilation, a product 1 to 3 s. Here each
// is compiled once. Small matrices of fixed size, sums and `matrix * vector` are cheap: write them
// with Eigen's operators.
#pragma once

#include <Eigen/Core>

namespace versolay {

// Shapes have to fit, as for Eigen's own operators.
Eigen::MatrixXd product(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b);        // a b
Eigen::MatrixXd inner_product(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b);  // a' b
Eigen::MatrixXd outer_product(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b);  // a b'
Eigen::MatrixXd propagated(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b);     // a b a'

/// @param square  n x n, invertible.
Eigen::MatrixXd inverse_of(const Eigen::MatrixXd& square);

/// Lower triangular factor L of a covariance C = L L'.
class Cholesky {
 public:
  Cholesky() = default;
  explicit Cholesky(const Eigen::MatrixXd& covariance);

  /// Not so where the matrix is not positive definite: then nothing else may be called.
  bool exists() const { return exists_; }
  Eigen::Index rows() const { return lower_.rows(); }
  Eigen::MatrixXd solve(const Eigen::MatrixXd& right) const;  // C^-1 right
  Eigen::VectorXd solve(const Eigen::VectorXd& right) const;
  Eigen::MatrixXd inverse() const;                              // C^-1
  Eigen::MatrixXd whitened(const Eigen::MatrixXd& rows) const;  // L^-1 rows
  Eigen::VectorXd whitened(const Eigen::VectorXd& values) const;
  Eigen::MatrixXd whitened_back(const Eigen::MatrixXd& white) const;  // L'^-1 white
  double log_determinant() const;                                     // of C

 private:
  bool exists_ = false;
  Eigen::MatrixXd lower_;  // above the diagonal: left over, not read
};

/// Of a symmetric matrix; the eigenvalues ascend.
struct Eigensystem {
  Eigen::VectorXd eigenvalues;
  Eigen::MatrixXd eigenvectors;  // columns
};
Eigensystem eigensystem_of(const Eigen::MatrixXd& symmetric);
Eigen::VectorXd eigenvalues_of(const Eigen::MatrixXd& symmetric);

/// Q with Q Q' = the matrix, negative eigenvalues taken as 0. Of all such Q the symmetric one: it
/// does not turn with the signs of eigenvectors, which rounding decides.
Eigen::MatrixXd symmetric_root(const Eigen::MatrixXd& symmetric);

/// L with L L' = root root', zero above its diagonal, none of which is negative: one of the many
/// roots that differ by a rotation, whatever rotation `root` (p x r, r <= p) came with.
Eigen::MatrixXd lower_root(const Eigen::MatrixXd& root);

/// Solves symmetric positive (semi-)definite equations, n x n (LDLT, which pivots).
Eigen::MatrixXd solve_symmetric(const Eigen::MatrixXd& normal, const Eigen::MatrixXd& right);
Eigen::VectorXd solve_symmetric(const Eigen::MatrixXd& normal, const Eigen::VectorXd& right);

/// Least squares by a QR decomposition with pivots.
struct LeastSquaresFit {
  Eigen::VectorXd solution;
  bool determined = false;  // by the rows; otherwise the solution is one of many
};
LeastSquaresFit least_squares(const Eigen::MatrixXd& rows, const Eigen::VectorXd& right);

}  // namespace versolay
