#include "registration/print_lay.h"

#include <Eigen/Dense>
#include <vector>

namespace versolay {

std::optional<PrintLay> print_lay_of(const CombinedFeatures& side) {
  // A point p on the edge with outward normal n of a sheet w x h whose middle is at c, turned by a
  // small angle a in the frame of the print: n.(p - c) - a n x p = half the size along n.
  std::vector<Eigen::Matrix<double, 1, 5>> rows;
  std::vector<double> values;
  int seen[4] = {};
  for (const SideFeature& f : side.features) {
    if (!is_edge(f.kind)) continue;
    const Eigen::Vector2d n = f.normal;
    const bool across = std::abs(n.x()) > 0.5;
    ++seen[across ? (n.x() < 0 ? 0 : 1) : (n.y() < 0 ? 2 : 3)];
    Eigen::Matrix<double, 1, 5> row;
    row << n.x(), n.y(), n.y() * f.at.x - n.x() * f.at.y, across ? 0.5 : 0.0, across ? 0.0 : 0.5;
    rows.push_back(row);
    values.push_back(n.dot(f.at.vec()));
  }
  for (const int count : seen) {
    if (count < 2) return std::nullopt;
  }
  Eigen::MatrixXd design(static_cast<Eigen::Index>(rows.size()), 5);
  Eigen::VectorXd value(design.rows());
  for (Eigen::Index i = 0; i < design.rows(); ++i) {
    design.row(i) = rows[static_cast<std::size_t>(i)];
    value[i] = values[static_cast<std::size_t>(i)];
  }
  const Eigen::VectorXd sheet = design.colPivHouseholderQr().solve(value);
  // The sheet as seen from the print, reversed: the print as seen from the sheet.
  return PrintLay{-sheet[0], -sheet[1], -sheet[2] * 1e3, sheet[3], sheet[4]};
}

}  // namespace versolay
