#include "registration/displacement_fit.h"

#include <Eigen/Dense>
#include <cmath>

namespace versolay {
namespace {

constexpr double kStatementDof = 6.0;

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

}  // namespace

RegistrationModel model_for_features(int features) {
  if (features >= 6) return RegistrationModel::affine;
  return features >= 3 ? RegistrationModel::similarity : RegistrationModel::rigid;
}

std::optional<DisplacementFit> fit_displacements(
    const std::vector<DisplacementObservation>& observations, RegistrationModel model) {
  const Eigen::MatrixXd expand = registration_from_free(model);
  const auto n = static_cast<Eigen::Index>(observations.size());
  if (n < expand.cols()) return std::nullopt;
  Eigen::MatrixXd design(n, expand.cols());
  Eigen::VectorXd value(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const DisplacementObservation& o = observations[static_cast<std::size_t>(i)];
    design.row(i) = o.direction.transpose() * displacement_jacobian(o.at) * expand / o.sd_mm;
    value[i] = o.value_mm / o.sd_mm;
  }
  // Columns differ in unit by orders of magnitude; scaled, the rank decision means something.
  const Eigen::VectorXd scale = design.colwise().norm();
  if ((scale.array() <= 0.0).any()) return std::nullopt;
  const Eigen::MatrixXd scaled = design * scale.cwiseInverse().asDiagonal();
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
  if (svd.singularValues().tail<1>()[0] < 1e-4 * svd.singularValues()[0]) return std::nullopt;
  const Eigen::VectorXd free = scale.cwiseInverse().asDiagonal() * svd.solve(value);
  const Eigen::MatrixXd inverse_normal =
      svd.matrixV() * svd.singularValues().array().square().inverse().matrix().asDiagonal() *
      svd.matrixV().transpose();
  const Eigen::MatrixXd cofactor =
      scale.cwiseInverse().asDiagonal() * inverse_normal * scale.cwiseInverse().asDiagonal();

  DisplacementFit fit;
  fit.model = model;
  fit.dof = static_cast<int>(n - expand.cols());
  const Eigen::VectorXd residual = value - design * free;
  const double chi2 = residual.squaredNorm();
  fit.variance_factor = (kStatementDof + chi2) / (kStatementDof + fit.dof);
  double sum_squares = 0.0;
  for (Eigen::Index i = 0; i < n; ++i) {
    sum_squares += std::pow(residual[i] * observations[static_cast<std::size_t>(i)].sd_mm, 2);
  }
  fit.residual_rms_mm = std::sqrt(sum_squares / static_cast<double>(n));
  fit.registration = Registration::from(expand * free);
  fit.covariance = fit.variance_factor * (expand * cofactor * expand.transpose());
  fit.covariance = (fit.covariance + fit.covariance.transpose().eval()) / 2;
  return fit;
}

}  // namespace versolay
