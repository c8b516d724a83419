#include "registration/fed_round.h"

#include <algorithm>
#include <cmath>

#include "stats/two_sample.h"

namespace versolay {
namespace {

constexpr double kLevel = 0.05;
constexpr double kConfidence = 0.95;
constexpr Eigen::Index kFewest = 2;

stats::Sample offsets_of(const std::vector<SheetReading>& sheets, bool fed_round) {
  std::vector<Eigen::Vector2d> offsets;
  for (const SheetReading& sheet : sheets) {
    if (sheet.fed_round != fed_round) continue;
    offsets.emplace_back(sheet.registration.dx_mm, sheet.registration.dy_mm);
  }
  Eigen::MatrixXd rows(static_cast<Eigen::Index>(offsets.size()), 2);
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    rows.row(i) = offsets[static_cast<std::size_t>(i)].transpose();
  }
  if (rows.rows() < kFewest) return {};
  return stats::sample_of(rows);
}

void turn(std::optional<PrintLay>& lay) {
  if (!lay) return;
  lay->dx_mm = -lay->dx_mm;
  lay->dy_mm = -lay->dy_mm;
  for (Eigen::Index i = 0; i < 2; ++i) {
    lay->covariance(i, 2) = -lay->covariance(i, 2);
    lay->covariance(2, i) = -lay->covariance(2, i);
  }
}

}  // namespace

SheetReading turned_round(SheetReading sheet) {
  // Offsets change their sign; rotation, scales and shear are the same seen upside down.
  RegistrationVector sign = RegistrationVector::Ones();
  sign.head<2>().setConstant(-1.0);
  const auto turned = [&](const Registration& r) {
    return Registration::from(sign.cwiseProduct(r.vec()));
  };
  sheet.fed_round = !sheet.fed_round;
  sheet.registration = turned(sheet.registration);
  sheet.covariance = sign.asDiagonal() * sheet.covariance * sign.asDiagonal();
  for (Registration& r : sheet.repeats) r = turned(r);
  for (FeatureReading& f : sheet.features) {
    f.at = {-f.at.x, -f.at.y};
    f.e_mm = -f.e_mm;
    f.residual_mm = -f.residual_mm;
    if (f.normal) f.normal = -*f.normal;
  }
  turn(sheet.recto_lay);
  turn(sheet.verso_lay);
  if (sheet.lean) sheet.lean->lean_mm = -sheet.lean->lean_mm;
  return sheet;
}

std::optional<FedRoundCheck> fed_round_of(const std::vector<SheetReading>& sheets) {
  const stats::Sample upright = offsets_of(sheets, false);
  const stats::Sample round = offsets_of(sheets, true);
  if (upright.n < kFewest || round.n < kFewest) return std::nullopt;
  FedRoundCheck check;
  check.sheets_upright = upright.n;
  check.sheets_round = round.n;
  for (int c = 0; c < 2; ++c) {
    const stats::Interval difference = stats::welch_difference(round, upright, c, kConfidence);
    check.bias_mm[c] = difference.estimate / 2;
    check.half_width_mm[c] = (difference.high - difference.low) / 4;
    check.p_value = std::min(check.p_value, 2 * difference.p_value);
  }
  check.real = check.p_value < kLevel;
  return check;
}

}  // namespace versolay
