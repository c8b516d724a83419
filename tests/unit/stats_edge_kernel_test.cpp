#include <gmock/gmock.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "stats/edge_kernel.h"

namespace versolay::stats {
namespace {

const Registration kSome{0.31, -0.22, 1.7, 260.0, -340.0, 0.6};

CardCells nine_cells() {
  CardCells cells;
  cells.width_mm = 63;
  cells.height_mm = 88;
  for (int row = -1; row <= 1; ++row) {
    for (int column = -1; column <= 1; ++column) {
      cells.centres.push_back({column * 63.0, row * 88.0});
    }
  }
  return cells;
}

/// A population that has one member.
Population always(const Registration& registration) {
  return {registration.vec(), Eigen::MatrixXd::Zero(6, 1)};
}

/// The definition: the largest displacement of the four corners, per axis.
Eigen::Vector2d worst_corner(const CardCells& cells, const Point<VersoMm>& centre) {
  Eigen::Vector2d worst(0, 0);
  for (double x : {-cells.width_mm / 2, cells.width_mm / 2}) {
    for (double y : {-cells.height_mm / 2, cells.height_mm / 2}) {
      worst = worst.cwiseMax(kSome.displacement_mm({centre.x + x, centre.y + y}).cwiseAbs());
    }
  }
  return worst;
}

TEST(EdgeKernel, GivesTheLargestDisplacementOfTheFourCorners) {
  const CardCells cells = nine_cells();
  const Eigen::Vector2d direction(0.7, 1.3);
  EdgeKernel kernel(cells, direction, EdgeKernel::Value::per_card, 3, 1);
  Random random(1);
  const auto needed = kernel.run(always(kSome), random);
  ASSERT_EQ(needed.size(), 27U);
  for (std::size_t i = 0; i < 9; ++i) {
    const double expected =
        worst_corner(cells, cells.centres[i]).cwiseQuotient(direction).maxCoeff();
    for (std::size_t sheet = 0; sheet < 3; ++sheet) {
      EXPECT_NEAR(needed[i * 3 + sheet], expected, 1e-6) << "cell " << i;
    }
  }
}

/// By how much each edge of the image moves inward, at its worse end: left, top, right, bottom.
std::array<double, 4> shortfalls(const CardCells& cells, const Point<VersoMm>& centre) {
  std::array<double, 4> worst{-1e9, -1e9, -1e9, -1e9};
  for (double x : {-cells.width_mm / 2, cells.width_mm / 2}) {
    for (double y : {-cells.height_mm / 2, cells.height_mm / 2}) {
      const Eigen::Vector2d moved = kSome.displacement_mm({centre.x + x, centre.y + y});
      const std::size_t across = x < 0 ? 0 : 2;
      const std::size_t down = y < 0 ? 1 : 3;
      worst[across] = std::max(worst[across], x < 0 ? moved.x() : -moved.x());
      worst[down] = std::max(worst[down], y < 0 ? moved.y() : -moved.y());
    }
  }
  return worst;
}

// The kernel bounds each edge by the worst of all four corners: with a scale, those of the far edge
// may move further, by scale times width.
TEST(EdgeKernel, JudgesEveryEdgeByItsOwnReach) {
  CardCells cells = nine_cells();
  for (std::size_t i = 0; i < 9; ++i) {
    const double more = 0.01 * static_cast<double>(i);
    cells.reach_mm.push_back({0.5 + more, 0.3 + more, 0.7 + more, 0.9 - more});
  }
  EdgeKernel kernel(cells, {1.0, 1.0}, EdgeKernel::Value::per_card, 2, 1);
  Random random(1);
  const auto needed = kernel.run(always(kSome), random);
  const double scale_x_mm = std::abs(kSome.scale_x_ppm) * 1e-6 * cells.width_mm;
  const double scale_y_mm = std::abs(kSome.scale_y_ppm) * 1e-6 * cells.height_mm;
  for (std::size_t i = 0; i < 9; ++i) {
    const auto s = shortfalls(cells, cells.centres[i]);
    const EdgeReach& r = cells.reach_mm[i];
    const double least =
        std::max({s[0] / r.left_mm, s[1] / r.top_mm, s[2] / r.right_mm, s[3] / r.bottom_mm});
    EXPECT_GE(needed[i * 2], least - 1e-6) << "cell " << i;
    EXPECT_LE(needed[i * 2], least + std::max(scale_x_mm, scale_y_mm) / 0.3) << "cell " << i;
  }
}

TEST(EdgeKernel, WithOneReachForAllEdgesSaysWhatItSaysWithoutThem) {
  const Population varied{
      kSome.vec(),
      Eigen::VectorXd(RegistrationVector(0.2, 0.1, 0.8, 50.0, 70.0, 0.1)).asDiagonal()};
  const CardCells alike = nine_cells();
  CardCells each = alike;
  each.reach_mm.assign(9, {0.7, 1.3, 0.7, 1.3});
  EdgeKernel one(alike, {0.7, 1.3}, EdgeKernel::Value::per_card, 700, 3);
  EdgeKernel other(each, {1.0, 1.0}, EdgeKernel::Value::per_card, 700, 3);
  Random a(9);
  Random b(9);
  // The places in the pool of noise are drawn first, though nothing of it is used.
  for (int i = 0; i < 9 * 6; ++i) static_cast<void>(a.uniform());
  const auto x = one.run(varied, a);
  const auto y = other.run(varied, b);
  for (std::size_t i = 0; i < x.size(); ++i) ASSERT_NEAR(x[i], y[i], 1e-5);
}

TEST(EdgeKernel, PerSheetIsTheWorstCardOfEachSheet) {
  const Population varied{
      kSome.vec(),
      Eigen::VectorXd(RegistrationVector(0.2, 0.1, 0.8, 50.0, 70.0, 0.1)).asDiagonal()};
  Random a(9);
  Random b(9);
  constexpr std::size_t kSheets = 1500;  // more than one tile
  EdgeKernel cards(nine_cells(), {1, 1}, EdgeKernel::Value::per_card, kSheets, 1);
  EdgeKernel sheets(nine_cells(), {1, 1}, EdgeKernel::Value::per_sheet, kSheets, 1);
  const auto by_card = cards.run(varied, a);
  const auto by_sheet = sheets.run(varied, b);
  for (std::size_t sheet = 0; sheet < kSheets; ++sheet) {
    float worst = 0;
    for (std::size_t i = 0; i < 9; ++i) worst = std::max(worst, by_card[i * kSheets + sheet]);
    ASSERT_EQ(by_sheet[sheet], worst);
  }
}

TEST(EdgeKernel, AZeroInTheDirectionIgnoresThatAxis) {
  CardCells cells = nine_cells();
  cells.centres = {{10.0, 20.0}};
  EdgeKernel x_only(cells, {1, 0}, EdgeKernel::Value::per_card, 1, 1);
  EdgeKernel y_only(cells, {0, 1}, EdgeKernel::Value::per_card, 1, 1);
  Random random(1);
  const Eigen::Vector2d expected = worst_corner(cells, cells.centres[0]);
  EXPECT_NEAR(x_only.run(always(kSome), random)[0], expected.x(), 1e-6);
  EXPECT_NEAR(y_only.run(always(kSome), random)[0], expected.y(), 1e-6);
}

TEST(EdgeKernel, AddsTheFixedDisplacementOfEachCell) {
  CardCells cells = nine_cells();
  cells.centres = {{0.0, 0.0}, {5.0, 5.0}};
  cells.fixed_mm = {{0.4, 0.0}, {0.0, -0.9}};
  EdgeKernel kernel(cells, {1, 1}, EdgeKernel::Value::per_card, 1, 1);
  Random random(1);
  const auto needed = kernel.run(always({}), random);
  EXPECT_NEAR(needed[0], 0.4, 1e-6);
  EXPECT_NEAR(needed[1], 0.9, 1e-6);
}

}  // namespace
}  // namespace versolay::stats
