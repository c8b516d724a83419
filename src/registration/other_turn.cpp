#include "registration/other_turn.h"

#include <algorithm>
#include <cmath>

#include "stats/hotelling.h"
#include "stats/sample.h"

namespace versolay {
namespace {

/// Bevels of opposite edges shift the middle of a sheet by this, equally on all sheets of a pack,
/// and count twice: the two passes see the middle from both sides.
constexpr double kMiddleSdMm = 0.014;

TurnAxis other(TurnAxis axis) {
  return axis == TurnAxis::vertical ? TurnAxis::horizontal : TurnAxis::vertical;
}

/// The two passes see one middle of the sheet, from both sides: its error counts twice.
Eigen::Vector2d stated_variance(const PrintLay& recto, const PrintLay& verso) {
  const auto twice = [&](Eigen::Index i) {
    return std::pow(std::sqrt(recto.covariance(i, i)) + std::sqrt(verso.covariance(i, i)), 2);
  };
  return {twice(0), twice(1)};
}

}  // namespace

Eigen::Vector3d registration_from_lays(const PrintLay& recto, const PrintLay& verso,
                                       TurnAxis axis) {
  const Eigen::Matrix2d mirror = verso_from_recto(axis).linear();
  const Eigen::Vector2d offset = Eigen::Vector2d(verso.dx_mm, verso.dy_mm) -
                                 mirror * Eigen::Vector2d(recto.dx_mm, recto.dy_mm);
  // Seen from behind, the front is turned the other way.
  return {offset.x(), offset.y(), verso.rotation_mrad + recto.rotation_mrad};
}

std::optional<OtherTurn> other_turn_of(const std::vector<SheetReading>& sheets, Turn turn,
                                       const Paper& paper) {
  const TurnAxis axis = other(turn_axis(turn, paper));
  std::vector<Eigen::Vector3d> values;
  Eigen::Vector3d stated = Eigen::Vector3d::Zero();  // mean variance of one sheet
  for (const SheetReading& sheet : sheets) {
    if (!sheet.recto_lay || !sheet.verso_lay) continue;
    Eigen::Vector3d value = registration_from_lays(*sheet.recto_lay, *sheet.verso_lay, axis);
    value[2] = sheet.registration.rotation_mrad;
    values.push_back(value);
    stated.head<2>() += stated_variance(*sheet.recto_lay, *sheet.verso_lay);
    stated[2] += sheet.covariance(2, 2);
  }
  if (values.empty()) return std::nullopt;
  Eigen::MatrixXd rows(static_cast<Eigen::Index>(values.size()), 3);
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    rows.row(i) = values[static_cast<std::size_t>(i)].transpose();
  }
  const stats::Sample sample = stats::sample_of(rows);
  stated /= sample.n;

  OtherTurn prediction;
  prediction.turn = turn == Turn::long_edge ? Turn::short_edge : Turn::long_edge;
  prediction.sheets = sample.n;
  prediction.mean = sample.mean;
  for (Eigen::Index i = 0; i < 3; ++i) {
    double variance_of_mean = stated[i] / sample.n;
    double factor = 1.96;
    if (sample.dof > 0) {
      const double spread = sample.scatter(i, i) / sample.dof;
      prediction.spread_sd[i] = std::sqrt(spread);
      variance_of_mean = std::max(variance_of_mean, spread / sample.n);
      factor = stats::t_half_width(sample.dof, 0.95);
    }
    const double common = i < 2 ? std::pow(1.96 * 2 * kMiddleSdMm, 2) : 0.0;
    prediction.half_width[i] = std::sqrt(factor * factor * variance_of_mean + common);
  }
  return prediction;
}

}  // namespace versolay
