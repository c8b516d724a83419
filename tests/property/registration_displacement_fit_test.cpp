#include <gtest/gtest.h>

#include <cmath>

#include "registration/displacement_fit.h"
#include "registration/paired_features.h"
#include "stats/random.h"
#include "support/print_turn_axis.h"
#include "target/geometry.h"

namespace versolay {
namespace {

constexpr Registration kTruth{0.42, -0.31, 1.2, 150.0, 120.0, 0.1};

const std::vector<Point<VersoMm>> kPunched = {
    {-40, -136.5}, {40, -136.5}, {40, 136.5}, {-40, 136.5}};
const std::vector<Point<VersoMm>> kPricked = {{-74, -92}, {-74, -30}, {-74, 30}, {-74, 92},
                                              {74, -92},  {74, -30},  {74, 30},  {74, 92}};

std::vector<DisplacementObservation> observe(const Registration& truth,
                                             const std::vector<Point<VersoMm>>& places) {
  std::vector<DisplacementObservation> observations;
  for (const auto& at : places) {
    const Eigen::Vector2d e = truth.displacement_mm(at);
    observations.push_back({at, {1, 0}, e.x()});
    observations.push_back({at, {0, 1}, e.y()});
  }
  return observations;
}

Eigen::MatrixXd independent(std::size_t n, double sd_mm) {
  return Eigen::MatrixXd::Identity(static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(n)) *
         sd_mm * sd_mm;
}

Eigen::MatrixXd no_nuisance(const std::vector<DisplacementObservation>& observations) {
  return {static_cast<Eigen::Index>(observations.size()), 0};
}

TEST(DisplacementFit, EightHolesGiveAllSixParametersBack) {
  const auto observations = observe(kTruth, kPricked);
  const auto fit = fit_displacements(observations, independent(observations.size(), 0.01),
                                     no_nuisance(observations), model_for_features(8));
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->model, RegistrationModel::affine);
  EXPECT_NEAR(fit->registration.dx_mm, kTruth.dx_mm, 1e-9);
  EXPECT_NEAR(fit->registration.dy_mm, kTruth.dy_mm, 1e-9);
  EXPECT_NEAR(fit->registration.rotation_mrad, kTruth.rotation_mrad, 2e-3);
  EXPECT_NEAR(fit->registration.scale_x_ppm, kTruth.scale_x_ppm, 2.0);
  EXPECT_NEAR(fit->registration.scale_y_ppm, kTruth.scale_y_ppm, 2.0);
  EXPECT_NEAR(fit->registration.shear_mrad, kTruth.shear_mrad, 2e-3);
}

TEST(DisplacementFit, TwoHolesGiveTheRigidPart) {
  const Registration rigid{0.2, 0.1, -0.8};
  const auto observations = observe(rigid, {kPunched[0], kPunched[2]});
  const auto fit = fit_displacements(observations, independent(4, 0.01), no_nuisance(observations),
                                     model_for_features(2));
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->model, RegistrationModel::rigid);
  for (int i = 0; i < 6; ++i) EXPECT_NEAR(fit->registration.vec()[i], rigid.vec()[i], 1e-9);
  EXPECT_EQ(fit->covariance(3, 3), 0.0);
}

TEST(DisplacementFit, HolesOnOneSpotAreRefused) {
  const auto observations = observe(kTruth, {{40, 10}, {40, 10}});
  EXPECT_FALSE(fit_displacements(observations, independent(4, 0.01), no_nuisance(observations),
                                 RegistrationModel::rigid));
}

// The fit is linear: an error of one observation moves the result by the generalised inverse, so
// that the covariance can be checked by putting every observation's error through the fit. Of eight
// holes, to which what is known of printers beforehand is nothing.
TEST(DisplacementFit, CovarianceIsThatOfTheEstimate) {
  const double sd = 0.012;
  auto observations = observe({}, kPricked);
  const Eigen::MatrixXd stated = independent(observations.size(), sd);
  RegistrationMatrix expected = RegistrationMatrix::Zero();
  for (auto& o : observations) {
    o.value_mm = sd;
    const auto fit = fit_displacements(observations, stated, no_nuisance(observations),
                                       RegistrationModel::affine);
    ASSERT_TRUE(fit);
    expected += fit->registration.vec() * fit->registration.vec().transpose();
    o.value_mm = 0.0;
  }
  const auto fit =
      fit_displacements(observations, stated, no_nuisance(observations), RegistrationModel::affine);
  const RegistrationMatrix covariance = fit->covariance / fit->variance_factors[0];
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(covariance(i, i), expected(i, i), 0.02 * expected(i, i)) << i;
  }
}

// Two holes at one end of the sheet cannot see scale and shear, which turn and move the middle of
// the page all the same: the stated uncertainty has to hold for printers that do both. Sizes of the
// printers' faults: from memory.
TEST(DisplacementFit, WhatTwoHolesCannotSeeIsInTheirUncertainty) {
  constexpr int kPrinters = 2000;
  constexpr double kSdMm = 0.005;
  stats::Random random(11);
  const std::vector<Point<VersoMm>> places = {kPunched[0], kPunched[1]};
  Eigen::Array3d within = Eigen::Array3d::Zero();
  for (int i = 0; i < kPrinters; ++i) {
    const Registration truth{
        0.3, -0.2, 1.0, 300 * random.normal(), 300 * random.normal(), 0.4 * random.normal()};
    auto observations = observe(truth, places);
    for (auto& o : observations) o.value_mm += kSdMm * random.normal();
    const auto fit = fit_displacements(observations, independent(4, kSdMm),
                                       no_nuisance(observations), RegistrationModel::rigid);
    ASSERT_TRUE(fit);
    const Eigen::Array3d error = (fit->registration.vec() - truth.vec()).head<3>();
    const Eigen::Array3d sd = fit->covariance.diagonal().head<3>().cwiseSqrt();
    within += (error.abs() < 1.96 * sd).cast<double>();
  }
  // The pooled variance factor widens and narrows single ones; 0.91 would be far outside luck.
  EXPECT_GT((within / kPrinters).minCoeff(), 0.93) << (within / kPrinters).transpose();
  EXPECT_LT((within / kPrinters).maxCoeff(), 0.99) << (within / kPrinters).transpose();
}

CombinedFeatures holes_at(const std::vector<Eigen::Vector2d>& places,
                          FeatureKind kind = FeatureKind::punch) {
  CombinedFeatures holes;
  const auto n = static_cast<Eigen::Index>(places.size());
  holes.covariance_mm2 = Eigen::MatrixXd::Identity(2 * n, 2 * n) * 1e-4;
  for (std::size_t i = 0; i < places.size(); ++i) {
    SideFeature hole;
    hole.id = (kind == FeatureKind::punch ? "H" : "P") + std::to_string(i + 1);
    hole.kind = kind;
    if (kind == FeatureKind::prick) hole.pin_sign = i < 4 ? 1 : -1;
    hole.at = Point<PageMm>::from(places[i]);
    holes.features.push_back(hole);
  }
  return holes;
}

/// Both sides of a sheet whose back landed as `truth` says: x_recto = M (x_verso + e(x_verso)).
std::pair<CombinedFeatures, CombinedFeatures> sheet(const Registration& truth, TurnAxis axis) {
  std::vector<Eigen::Vector2d> recto;
  std::vector<Eigen::Vector2d> verso;
  for (const auto& p : kPunched) {
    const Point<VersoMm> at{p.x + 0.3, p.y - 0.2};
    verso.push_back(at.vec());
    recto.push_back(recto_from_verso(axis)(truth.landed_from_page()(at)).vec());
  }
  return {holes_at(recto), holes_at(verso)};
}

class SignTest : public testing::TestWithParam<TurnAxis> {};
INSTANTIATE_TEST_SUITE_P(Turns, SignTest,
                         testing::Values(TurnAxis::vertical, TurnAxis::horizontal));

TEST_P(SignTest, ABackThatLandedRightAndDownReadsPositive) {
  const auto [recto, verso] = sheet({0.5, 0.25, 0.0}, GetParam());
  const auto fit = PairedFeatures::by_name(recto, verso, GetParam()).fit();
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->registration.dx_mm, 0.5, 1e-9);
  EXPECT_NEAR(fit->registration.dy_mm, 0.25, 1e-9);
}

TEST_P(SignTest, ABackThatIsTurnedClockwiseReadsPositive) {
  const auto [recto, verso] = sheet({0.0, 0.0, 2.0}, GetParam());
  const auto fit = PairedFeatures::by_name(recto, verso, GetParam()).fit();
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->registration.rotation_mrad, 2.0, 1e-2);
}

// Calling the back the front and the front the back turns R into its inverse, seen from the other
// side: M R^-1 M. To first order the shift along the mirrored axis keeps its sign.
TEST_P(SignTest, SwappingTheSidesInvertsTheRegistration) {
  const Registration truth{0.5, 0.25, 0.7, 80, 60, 0.05};
  const auto [recto, verso] = sheet(truth, GetParam());
  const auto fit = PairedFeatures::by_name(verso, recto, GetParam()).fit();
  ASSERT_TRUE(fit);
  const Eigen::Matrix2d mirror = recto_from_verso(GetParam()).linear();
  const auto inverse = truth.page_from_wanted();
  const Registration expected =
      registration_from({mirror * inverse.linear() * mirror, mirror * inverse.offset()});
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(fit->registration.vec()[i], expected.vec()[i], 5e-3) << i;
  }
}

// The pricks of a real target, the second four made with the sheet rotated by 180 degrees.
TEST(Lean, OfThePinIsFoundAndTouchesNothingElse) {
  const TargetGeometry geometry = target_geometry(parse_paper("a4"), Turn::long_edge);
  const Registration truth{0.5, 0.25, 0.7, 80, 60, 0.05};
  const Eigen::Vector2d lean(0.06, -0.03);
  std::vector<Eigen::Vector2d> recto;
  std::vector<Eigen::Vector2d> verso;
  for (const HolePlace& place : geometry.holes) {
    if (place.kind != HoleKind::prick) continue;
    const double sign = verso.size() < 4 ? 1.0 : -1.0;
    const Point<VersoMm> at = verso_from_recto(geometry.axis())(place.at);
    recto.push_back(place.at.vec());
    verso.push_back(truth.page_from_wanted()(Point<VersoMm>::from(at.vec() - sign * lean)).vec());
  }
  ASSERT_EQ(verso.size(), 8u);
  const auto fit = PairedFeatures::by_name(holes_at(recto, FeatureKind::prick),
                                           holes_at(verso, FeatureKind::prick), geometry.axis())
                       .fit();
  ASSERT_TRUE(fit);
  ASSERT_EQ(fit->nuisance.size(), 2);
  EXPECT_NEAR(fit->nuisance.x(), lean.x(), 1e-4);
  EXPECT_NEAR(fit->nuisance.y(), lean.y(), 1e-4);
  EXPECT_NEAR(fit->registration.dx_mm, truth.dx_mm, 1e-4);
  EXPECT_NEAR(fit->registration.rotation_mrad, truth.rotation_mrad, 5e-3);
}

TEST_P(SignTest, OneTornHoleShowsInTheResiduals) {
  auto [recto, verso] = sheet({0.5, 0.25, 0.0}, GetParam());
  recto.features[0].at.x += 0.4;
  PairedFeatures pairs = PairedFeatures::by_name(recto, verso, GetParam());
  const auto fit = pairs.fit();
  ASSERT_TRUE(fit);
  EXPECT_GT(fit->residual_rms_mm, 0.03);
  EXPECT_GT(fit->variance_factors[0], 5.0);
}

}  // namespace
}  // namespace versolay
