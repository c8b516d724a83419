// From displacements at places of the sheet to its registration.
//
// Accuracy: the 95 % intervals of dx, dy and rotation hold for 98 to 100 % of 200 sheets read by
// four punched holes and the edges at 150 dpi, and for 86 to 92 % where the printer is twice as
// uneven as assumed (tests/bench/README.md, second simulator). README.md of this folder derives the
// model.
#pragma once

#include <optional>
#include <vector>

#include "versolay/sheet_readings.h"

namespace versolay {

/// One scalar observation: direction . e(at) = value. A hole gives two (directions x and y), a
/// place on an edge of the paper one (along the edge's normal). What is stated of a group's errors
/// is right or wrong for all of it.
struct DisplacementObservation {
  Point<VersoMm> at;
  Eigen::Vector2d direction{1.0, 0.0};
  double value_mm = 0.0;
  std::size_t group = 0;
};

struct DisplacementFit {
  Registration registration;
  RegistrationMatrix covariance = RegistrationMatrix::Zero();  // units of Registration::vec()
  RegistrationModel model = RegistrationModel::rigid;
  int dof = 0;
  double residual_rms_mm = 0.0;
  std::vector<double> variance_factors;  // of each group
  Eigen::VectorXd nuisance;              // estimates of the nuisance effects
  Eigen::MatrixXd nuisance_covariance;
};

/// The model that this many two-dimensional features can carry: 2 rigid (dx, dy, rotation),
/// 3 similarity (one scale for both axes), 4 and more affine.
RegistrationModel model_for_features(int features);

/// Generalised least squares.
/// @param covariance_mm2  n x n, joint covariance of the observed values.
/// @param nuisance        n x q, effects that are estimated along with the registration but are
///                        no part of it (the lean of a pin); q may be 0.
/// The stated errors are the weights. What is stated of them is pooled with the residuals that they
/// leave, separately for each group (variance_factors.h), and rescales the covariance of the
/// result: few features neither trust a lucky fit nor ignore a bad one. No factor is smaller than
/// `least_variance_factor`: 1 where many observations share an error that their residuals do not
/// show, as all places of one edge do. Parameters that the model leaves out are 0 with variance 0;
/// what they usually are (300 ppm, 0.4 mrad) is an error of the observations, so that the stated
/// uncertainty of what is estimated holds for printers that do scale and shear. Under a similarity
/// scale_x = scale_y, fully correlated. The affine model has a prior: printers hardly shear and
/// scale almost equally in both directions (one sigma: 0.5 mrad, 1000 ppm between the axes). It
/// stabilises four holes, whose span across is short, and hardly affects eight.
/// @return nullopt when the observations do not determine the model (all on one spot or line).
std::optional<DisplacementFit> fit_displacements(
    const std::vector<DisplacementObservation>& observations, const Eigen::MatrixXd& covariance_mm2,
    const Eigen::MatrixXd& nuisance, RegistrationModel model, double least_variance_factor = 0.0);

}  // namespace versolay
