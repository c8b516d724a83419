#include "registration/displacement_fit.h"

#include <Eigen/Dense>
#include <cmath>

#include "core/expect.h"
#include "core/linear_algebra.h"
#include "registration/least_squares.h"
#include "registration/variance_factors.h"

namespace versolay {
namespace {

// The affine model's prior, one sigma, for the back against the front. From memory: paper grows by
// up to 1000 ppm between the passes, more across its grain than along it; the shear of each pass is
// a few tenths of a mrad. It counts where four holes hardly span the page: DEVELOPERS.md,
// "Rejected".
constexpr double kPriorScaleDifferencePpm = 1000.0;
constexpr double kPriorShearMrad = 0.5;

// By how much a printer's scale on the back differs from that on the front, each axis, and its
// shear (that of one pass counts twice), where a model leaves them out. From memory: paper that has
// taken up ink is 0.02 to 0.05 % larger at the second pass; carriages are square to the feed to 0.2
// mrad.
constexpr double kUsualScalePpm = 300.0;
constexpr double kUsualShearMrad = 0.4;

/// Columns: free parameters of the model; rows: Registration::vec().
Eigen::MatrixXd registration_from_free(RegistrationModel model) {
  switch (model) {
    case RegistrationModel::rigid:
      return Eigen::MatrixXd::Identity(6, 3);
    case RegistrationModel::similarity: {
      Eigen::MatrixXd m = Eigen::MatrixXd::Identity(6, 4);
      m(4, 3) = 1.0;  // scale_y follows scale_x
      return m;
    }
    case RegistrationModel::affine:
      break;
  }
  return Eigen::MatrixXd::Identity(6, 6);
}

/// What is known of printers before any reading, as whitened rows of observations that are zero.
Eigen::MatrixXd prior_rows(RegistrationModel model) {
  if (model != RegistrationModel::affine) {
    return Eigen::MatrixXd(0, registration_from_free(model).cols());
  }
  Eigen::MatrixXd rows = Eigen::MatrixXd::Zero(2, 6);
  rows(0, 3) = 1.0 / kPriorScaleDifferencePpm;
  rows(0, 4) = -1.0 / kPriorScaleDifferencePpm;
  rows(1, 5) = 1.0 / kPriorShearMrad;
  return rows;
}

/// What the model takes for 0, one usual printer's size of each, as columns of Registration::vec().
Eigen::MatrixXd left_out_by(RegistrationModel model) {
  if (model == RegistrationModel::affine) return Eigen::MatrixXd(6, 0);
  Eigen::MatrixXd sizes = Eigen::MatrixXd::Zero(6, 3);
  sizes(5, 0) = kUsualShearMrad;
  sizes(3, 1) = kUsualScalePpm;
  sizes(4, 2) = kUsualScalePpm;
  if (model == RegistrationModel::rigid) return sizes;
  // Both axes have one scale: only their difference is left out.
  sizes.col(1) = (sizes.col(1) - sizes.col(2)) / std::sqrt(2.0);
  return sizes.leftCols(2);
}

}  // namespace

RegistrationModel model_for_features(int features) {
  if (features >= 4) return RegistrationModel::affine;
  return features == 3 ? RegistrationModel::similarity : RegistrationModel::rigid;
}

std::optional<DisplacementFit> fit_displacements(
    const std::vector<DisplacementObservation>& observations, const Eigen::MatrixXd& covariance_mm2,
    const Eigen::MatrixXd& nuisance, RegistrationModel model, double least_variance_factor) {
  const Eigen::MatrixXd expand = registration_from_free(model);
  const auto n = static_cast<Eigen::Index>(observations.size());
  expect(covariance_mm2.rows() == n && covariance_mm2.cols() == n);
  expect(nuisance.rows() == n);
  const Eigen::Index free_count = expand.cols();
  const Eigen::Index unknowns = free_count + nuisance.cols();
  if (n < unknowns) return std::nullopt;
  Eigen::MatrixXd whole_design(n, 6);
  LeastSquaresProblem problem;
  problem.value.resize(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const DisplacementObservation& o = observations[static_cast<std::size_t>(i)];
    whole_design.row(i) = o.direction.transpose() * displacement_jacobian(o.at);
    problem.value[i] = o.value_mm;
    problem.group.push_back(o.group);
  }
  problem.design.resize(n, unknowns);
  problem.design << product(whole_design, expand), nuisance;
  problem.prior = prior_rows(model);
  problem.left_out = product(whole_design, left_out_by(model));

  // Residuals show little of what a group's errors share (the bevel of a cut, the side of the
  // lamp), so the factors change what is stated and not the weights.
  const auto factors = variance_factors(problem, covariance_mm2, least_variance_factor);
  const auto solution = solve(problem, covariance_mm2);
  if (!factors || !solution) return std::nullopt;
  const Eigen::MatrixXd covariance =
      covariance_under(scaled_by_group(covariance_mm2, problem, *factors), problem, *solution);

  DisplacementFit fit;
  fit.model = model;
  fit.dof = static_cast<int>(n - unknowns);
  fit.variance_factors = *factors;
  fit.residual_rms_mm =
      std::sqrt((problem.value - problem.design * solution->parameters).squaredNorm() /
                static_cast<double>(n));
  fit.registration = Registration::from(expand * solution->parameters.head(free_count));
  fit.covariance = propagated(expand, covariance.topLeftCorner(free_count, free_count));
  fit.nuisance = solution->parameters.tail(nuisance.cols());
  fit.nuisance_covariance = covariance.bottomRightCorner(nuisance.cols(), nuisance.cols());
  fit.covariance = (fit.covariance + fit.covariance.transpose().eval()) / 2;
  return fit;
}

}  // namespace versolay
