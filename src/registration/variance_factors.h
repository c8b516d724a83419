// How much larger or smaller the errors of each group of observations are than stated.
#pragma once

#include <optional>
#include <vector>

#include "registration/least_squares.h"

namespace versolay {

/// The factors of highest restricted likelihood, each pooled with the statement as if that were the
/// residuals of 6 degrees of freedom: with one group (6 + chi2) / (6 + degrees of freedom). With
/// several these are Helmert's variance components (K.-R. Koch, Parameter Estimation and Hypothesis
/// Testing in Linear Models, 1999, section 3.6; from memory).
/// @param stated  n x n covariance of the observations' errors.
/// @param least   no factor is smaller.
/// @return one for each group; nullopt when the observations do not determine the parameters.
std::optional<std::vector<double>> variance_factors(const LeastSquaresProblem& problem,
                                                    const Eigen::MatrixXd& stated, double least);

/// The stated covariance, with the errors of every group sqrt(factor) times as large.
Eigen::MatrixXd scaled_by_group(const Eigen::MatrixXd& stated, const LeastSquaresProblem& problem,
                                const std::vector<double>& factors);

}  // namespace versolay
