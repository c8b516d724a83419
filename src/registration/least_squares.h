// Generalised least squares with a prior and with errors that the model leaves out.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <vector>

#include "core/linear_algebra.h"

namespace versolay {

/// n observations of p parameters.
struct LeastSquaresProblem {
  Eigen::MatrixXd design;          // n x p
  Eigen::VectorXd value;           // n
  Eigen::MatrixXd prior;           // whitened rows over the first parameters: what is 0 beforehand
  Eigen::MatrixXd left_out;        // n x q: errors of size 1 that the design leaves out
  std::vector<std::size_t> group;  // n: whose stated errors are right or wrong together

  /// What is stated of the observations, with what the design leaves out.
  Eigen::MatrixXd whole_covariance(const Eigen::MatrixXd& stated) const {
    return stated + outer_product(left_out, left_out);
  }
};

struct LeastSquaresSolution {
  Cholesky whitener;             // of the whole covariance C
  Eigen::MatrixXd white_design;  // with the rows of the prior below
  Eigen::VectorXd parameters;    // p
  Eigen::MatrixXd covariance;    // p x p

  /// C^-1 times the design.
  Eigen::MatrixXd weighted_design() const;
};

/// @param stated  n x n covariance of the observations' errors.
/// @return nullopt when the observations do not determine the parameters.
std::optional<LeastSquaresSolution> solve(const LeastSquaresProblem& problem,
                                          const Eigen::MatrixXd& stated);

/// Of parameters that were solved as if the errors had one covariance, where they have another.
Eigen::MatrixXd covariance_under(const Eigen::MatrixXd& errors, const LeastSquaresProblem& problem,
                                 const LeastSquaresSolution& solution);

}  // namespace versolay
