#include <gtest/gtest.h>

#include <random>

#include "versolay/sheet_readings.h"

namespace versolay {
namespace {

/// Independent of the code under test: where a point of the artwork lands is told by following it.
struct Sheet {
  Registration printer;
  Registration correction;

  Point<VersoMm> landed(const Point<VersoMm>& artwork) const {
    const Eigen::Vector2d printed = artwork.vec() + correction.displacement_mm(artwork);
    const auto p = Point<VersoMm>::from(printed);
    return Point<VersoMm>::from(printed + printer.displacement_mm(p));
  }
};

Sheet random_sheet(std::mt19937& random) {
  std::uniform_real_distribution<double> mm(-1.5, 1.5);
  std::uniform_real_distribution<double> mrad(-4.0, 4.0);
  std::uniform_real_distribution<double> ppm(-900, 900);
  const auto one = [&] {
    return Registration{mm(random),  mm(random),  mrad(random),
                        ppm(random), ppm(random), mrad(random) / 8};
  };
  return {one(), one()};
}

/// The registration that carries three points to where they landed.
Registration measured(const Sheet& sheet) {
  const Point<VersoMm> a{-90, -120}, b{95, -110}, c{-80, 130};
  Eigen::Matrix3d from;
  from << a.x, b.x, c.x, a.y, b.y, c.y, 1, 1, 1;
  Eigen::Matrix<double, 2, 3> to;
  to << sheet.landed(a).vec(), sheet.landed(b).vec(), sheet.landed(c).vec();
  const Eigen::Matrix<double, 2, 3> map = to * from.inverse();
  return registration_from(Affine<VersoMm, VersoMm>(map.leftCols<2>(), map.col(2)));
}

TEST(WithoutCorrection, GivesBackThePrinterExactly) {
  std::mt19937 random(3);
  for (int i = 0; i < 50; ++i) {
    const Sheet sheet = random_sheet(random);
    SheetReading reading;
    reading.correction = sheet.correction;
    reading.registration = measured(sheet);
    const SheetReading raw = without_correction(reading);
    EXPECT_FALSE(raw.correction);
    const RegistrationVector error = raw.registration.vec() - sheet.printer.vec();
    EXPECT_LT(error.head<3>().cwiseAbs().maxCoeff(), 1e-9);      // mm, mrad
    EXPECT_LT(error.segment<2>(3).cwiseAbs().maxCoeff(), 1e-5);  // ppm
    EXPECT_LT(std::abs(error[5]), 1e-9);
  }
}

TEST(WithoutCorrection, MovesFeaturesAlongAndLeavesTheirResiduals) {
  std::mt19937 random(4);
  const Sheet sheet = random_sheet(random);
  SheetReading reading;
  reading.correction = sheet.correction;
  reading.registration = measured(sheet);
  const Point<VersoMm> at{70, -40};
  FeatureReading hole{"H1", at, sheet.landed(at).vec() - at.vec(), 0.01, {0, 0}, {}};
  FeatureReading edge = hole;
  edge.normal = Eigen::Vector2d(0, -1);
  edge.e_mm = *edge.normal * edge.normal->dot(hole.e_mm);
  reading.features = {hole, edge};
  const SheetReading raw = without_correction(reading);
  for (const FeatureReading& f : raw.features) {
    Eigen::Vector2d residual = f.e_mm - raw.registration.displacement_mm(f.at);
    if (f.normal) residual = *f.normal * f.normal->dot(residual);
    EXPECT_LT(residual.norm(), 1e-9);
  }
}

TEST(WithoutCorrection, CarriesTheCovarianceAlong) {
  std::mt19937 random(5);
  const Sheet sheet = random_sheet(random);
  SheetReading reading;
  reading.correction = sheet.correction;
  reading.registration = measured(sheet);
  const RegistrationVector sd = (RegistrationVector() << 0.02, 0.03, 0.1, 90, 80, 0.1).finished();
  reading.covariance = sd.array().square().matrix().asDiagonal();
  // Monte Carlo: readings that scatter by this covariance, each converted separately.
  std::normal_distribution<double> normal;
  constexpr int kDraws = 20000;
  Eigen::Matrix<double, 6, Eigen::Dynamic> draws(6, kDraws);
  for (int i = 0; i < kDraws; ++i) {
    SheetReading drawn = reading;
    RegistrationVector v = reading.registration.vec();
    for (int c = 0; c < 6; ++c) v[c] += sd[c] * normal(random);
    drawn.registration = Registration::from(v);
    draws.col(i) = without_correction(drawn).registration.vec();
  }
  const RegistrationMatrix covariance = without_correction(reading).covariance;
  const Eigen::Matrix<double, 6, Eigen::Dynamic> centred = draws.colwise() - draws.rowwise().mean();
  const RegistrationMatrix found = centred * centred.transpose() / (kDraws - 1);
  for (int c = 0; c < 6; ++c) {
    EXPECT_NEAR(found(c, c) / covariance(c, c), 1.0, 0.05)
        << kRegistrationKeys[static_cast<std::size_t>(c)];
  }
}

TEST(WithoutCorrection, LeavesTargetsAlone) {
  SheetReading reading;
  reading.registration = {0.1, 0.2, 0.3, 4, 5, 0.6};
  EXPECT_EQ(without_correction(reading).registration, reading.registration);
}

}  // namespace
}  // namespace versolay
