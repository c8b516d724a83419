#include "registration/print_lay.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <vector>

#include "core/linear_algebra.h"
#include "core/statement.h"

namespace versolay {
namespace {

constexpr Eigen::Index kUnknowns = 5;  // middle x, y; rotation; width; height

}  // namespace

std::optional<PrintLay> print_lay_of(const CombinedFeatures& side) {
  // A point p on the edge with outward normal n of a sheet w x h whose middle is at c, turned by a
  // small angle a in the frame of the print: n.(p - c) - a n x p = half the size along n.
  const auto features = static_cast<Eigen::Index>(side.features.size());
  std::vector<Eigen::Matrix<double, 1, kUnknowns>> rows;
  std::vector<Eigen::RowVectorXd> normals;
  std::vector<double> values;
  std::array<int, 4> seen{};
  for (Eigen::Index i = 0; i < features; ++i) {
    const SideFeature& f = side.features[static_cast<std::size_t>(i)];
    if (!is_edge(f.kind)) continue;
    const Eigen::Vector2d n = f.normal;
    const bool across = std::abs(n.x()) > 0.5;
    ++seen[across ? (n.x() < 0 ? 0 : 1) : (n.y() < 0 ? 2 : 3)];
    Eigen::Matrix<double, 1, kUnknowns> row;
    row << n.x(), n.y(), n.y() * f.at.x - n.x() * f.at.y, across ? 0.5 : 0.0, across ? 0.0 : 0.5;
    rows.push_back(row);
    normals.emplace_back(Eigen::RowVectorXd::Zero(2 * features));
    normals.back().segment<2>(2 * i) = n.transpose();
    values.push_back(n.dot(f.at.vec()));
  }
  if (*std::min_element(seen.begin(), seen.end()) < 2) return std::nullopt;

  const auto n = static_cast<Eigen::Index>(rows.size());
  Eigen::MatrixXd design(n, kUnknowns);
  Eigen::MatrixXd select(n, 2 * features);
  Eigen::VectorXd value(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    design.row(i) = rows[static_cast<std::size_t>(i)];
    select.row(i) = normals[static_cast<std::size_t>(i)];
    value[i] = values[static_cast<std::size_t>(i)];
  }
  const Cholesky whitener(propagated(select, side.covariance_mm2));
  if (!whitener.exists()) return std::nullopt;
  const Eigen::MatrixXd white = whitener.whitened(design);
  const Eigen::VectorXd white_value = whitener.whitened(value);
  const Eigen::VectorXd sheet = least_squares(white, white_value).solution;
  // No sheet is a perfect rectangle: what the rectangle leaves widens the statement.
  const double chi2 = (white_value - white * sheet).squaredNorm();
  const double factor =
      (kStatementDof + chi2) / (kStatementDof + static_cast<double>(n - kUnknowns));
  const Eigen::MatrixXd cofactor = inverse_of(inner_product(white, white));

  // The sheet as seen from the print, reversed: the print as seen from the sheet.
  PrintLay lay{-sheet[0], -sheet[1], -sheet[2] * 1e3, sheet[3], sheet[4]};
  const Eigen::Vector3d unit(1.0, 1.0, 1e3);  // radians to mrad
  lay.covariance =
      unit.asDiagonal() * (factor * cofactor.topLeftCorner<3, 3>()) * unit.asDiagonal();
  return lay;
}

}  // namespace versolay
