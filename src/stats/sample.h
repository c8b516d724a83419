// Mean and scatter of vectors, and how those of several sessions are pooled.
#pragma once

#include <Eigen/Core>
#include <span>

namespace versolay::stats {

/// Summary of n vectors. scatter: sum of squares and products about the mean, dof degrees of
/// freedom, so that covariance = scatter / dof estimates the spread. dof = n - 1 for one sample,
/// the sum of n_b - 1 when the scatter within sessions is pooled.
struct Sample {
  Eigen::VectorXd mean;
  Eigen::MatrixXd scatter;
  int n = 0;
  int dof = 0;

  /// scatter / dof. Precondition: dof >= 1.
  Eigen::MatrixXd covariance() const;
};

/// @param rows  one observation per row, at least one row.
Sample sample_of(const Eigen::MatrixXd& rows);

/// Mean of all observations; scatter within the samples only, so that a difference between the
/// sessions does not inflate it. Precondition: at least one sample, equal dimensions.
Sample pooled(std::span<const Sample> samples);

/// A component that does not vary, or one that the others determine. Units may differ.
bool is_singular(const Eigen::MatrixXd& covariance);

/// Q (p x rank) with Q Q' = the matrix, without the directions that hold no more than rounding
/// errors. Units may differ by component.
Eigen::MatrixXd root_of_scatter(const Eigen::MatrixXd& symmetric);

/// Q with Q Q' = observed - known, negative eigenvalues taken as 0. The eigenvalues are those in
/// units of the observed standard deviations, so that mm, mrad and ppm count equally. Components
/// that do not vary give rows of zeros.
Eigen::MatrixXd root_of_difference(const Eigen::MatrixXd& observed, const Eigen::MatrixXd& known);

}  // namespace versolay::stats
