#include "registration/eye_registration.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "core/files.h"
#include "core/findings.h"
#include "measure/median.h"
#include "registration/displacement_fit.h"
#include "registration/findings.h"
#include "registration/paired_features.h"
#include "target/eye_scales.h"
#include "target/geometry.h"

namespace versolay {
namespace {

// How well an eye reads, one sigma, beside the rounding: assumed, to be checked by reading a sheet
// twice. Judging tenths of a division of half a millimetre; judging which of two lines 0.1 mm apart
// runs on straight.
constexpr double kPointingMm = 0.05;
constexpr double kCoincidenceMm = 0.05;
constexpr double kPrickMm = 0.026;  // a prick's burr on one side, as for scans
constexpr double kUsualKnownToMm = 0.1;
constexpr double kTwoSigma = 1.96;
constexpr double kFinestStepMm = 0.01;  // of numbers that follow no coarser step
/// A rotation that nobody read is taken for 0, give or take what feeds commonly do.
constexpr double kUnreadRotationMrad = 2.0;
constexpr double kRotationArmMm = 200.0;  // over which a value of `known to` gives a rotation

constexpr double kOutlierSigmas = 3.3;
constexpr int kLeastSpare = 3;   // observations beyond the unknowns, to leave one out
constexpr int kMostLeftOut = 2;  // more wrong numbers than that, and the right ones are not known
constexpr double kWarnRmsMm = 0.15;
constexpr double kFailRmsMm = 0.25;
constexpr double kMostLeanMm = 0.15;  // no pin leans that much in paper: other sheets do

/// One number, or a front and back pair of numbers, as a displacement.
struct Observation {
  std::string name;  // "P4, across"
  std::string place;
  DisplacementObservation displacement;
  double sd_mm = 0.0;
  double lean = 0.0;  // sign of the pin's lean in it
};
using Observations = std::vector<Observation>;

void add_hole(const EyeRow& row, const TargetGeometry& geometry, double rounding_mm,
              Observations& observations) {
  const auto hole = std::find_if(geometry.holes.begin(), geometry.holes.end(),
                                 [&](const HolePlace& h) { return h.id == row.place; });
  const auto from_middle = [&](std::size_t i, Side side, ScaleAxis axis) {
    return *row.numbers[i] - graticule_middle(side, axis);
  };
  const auto verso_from = verso_from_recto(geometry.axis());
  const Eigen::Vector2d recto =
      hole->at.vec() + Eigen::Vector2d(from_middle(0, Side::recto, ScaleAxis::across),
                                       from_middle(1, Side::recto, ScaleAxis::down));
  const Eigen::Vector2d verso =
      verso_from(hole->at).vec() + Eigen::Vector2d(from_middle(2, Side::verso, ScaleAxis::across),
                                                   from_middle(3, Side::verso, ScaleAxis::down));
  const Eigen::Vector2d e = verso_from.linear() * recto - verso;
  const double one_side = std::hypot(kPointingMm, rounding_mm, kPrickMm);
  for (const ScaleAxis axis : {ScaleAxis::across, ScaleAxis::down}) {
    const Eigen::Vector2d direction = unit_vector(axis);
    observations.push_back({fmt::format("{}, {}", row.place, to_string(axis)),
                            row.place,
                            {Point<VersoMm>::from(verso), direction, direction.dot(e)},
                            std::sqrt(2.0) * one_side,
                            static_cast<double>(hole->pin_sign())});
  }
}

void add_vernier_reading(const EyeRow& row, const TargetGeometry& geometry, double rounding_mm,
                         Observations& observations) {
  const auto vernier = std::find_if(geometry.verniers.begin(), geometry.verniers.end(),
                                    [&](const VernierPlace& v) { return v.id == row.place; });
  const double reading = *row.numbers[0];
  const double line = (reading - std::floor(reading)) / kVernierStepMm;
  observations.push_back({row.place,
                          row.place,
                          {vernier_line(*vernier, line), unit_vector(vernier->axis),
                           reading - vernier_middle(vernier->axis)},
                          std::hypot(kCoincidenceMm, rounding_mm),
                          0.0});
}

/// One scale for both axes at most: eyes cannot tell two, and unknowns that are not needed make
/// misread numbers harder to find.
RegistrationModel model_for(std::size_t observations) {
  return observations >= 6 ? RegistrationModel::similarity : RegistrationModel::rigid;
}

/// The lean of the pin can be told where both halves of the pricks were read.
bool tells_lean(const Observations& observations) {
  const auto half = [&](double sign) {
    return std::count_if(observations.begin(), observations.end(),
                         [&](const Observation& o) { return o.lean == sign; });
  };
  return half(1.0) >= 4 && half(-1.0) >= 4;
}

std::optional<DisplacementFit> fit(const Observations& observations) {
  const auto n = static_cast<Eigen::Index>(observations.size());
  const bool with_lean = tells_lean(observations);
  std::vector<DisplacementObservation> displacements;
  Eigen::VectorXd variance(n);
  Eigen::MatrixXd nuisance(n, with_lean ? 2 : 0);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Observation& o = observations[static_cast<std::size_t>(i)];
    displacements.push_back(o.displacement);
    variance[i] = o.sd_mm * o.sd_mm;
    if (with_lean) nuisance.row(i) = o.lean * o.displacement.direction.transpose();
  }
  return fit_displacements(displacements, variance.asDiagonal().toDenseMatrix(), nuisance,
                           model_for(observations.size()));
}

double residual_mm(const Observation& o, const DisplacementFit& fitted) {
  const DisplacementObservation& d = o.displacement;
  double residual = d.value_mm - d.direction.dot(fitted.registration.displacement_mm(d.at));
  if (fitted.nuisance.size() == 2) residual -= o.lean * d.direction.dot(fitted.nuisance);
  return residual;
}

struct Suspect {
  std::size_t index = 0;
  double off_mm = 0.0;  // by what the others say
  double sigmas = 0.0;
};

/// The observation that disagrees most with what all the others predict for it. Somebody who reads
/// less well than assumed, as the others show, is no reason to suspect it.
Suspect worst_of(const Observations& observations) {
  Suspect worst;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    Observations others = observations;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    const auto fitted = fit(others);
    if (!fitted) continue;
    const DisplacementObservation& d = observations[i].displacement;
    const Eigen::Matrix<double, 1, 6> row = d.direction.transpose() * displacement_jacobian(d.at);
    double variance =
        std::pow(observations[i].sd_mm, 2) * std::max(1.0, fitted->variance_factors[0]) +
        (row * fitted->covariance * row.transpose())(0);
    if (fitted->nuisance.size() == 2) {
      variance += d.direction.dot(fitted->nuisance_covariance * d.direction);
    }
    const double off = residual_mm(observations[i], *fitted);
    const double sigmas = std::abs(off) / std::sqrt(variance);
    if (sigmas > worst.sigmas) worst = {i, off, sigmas};
  }
  return worst;
}

/// A number read one or two divisions beside the right one: how many millimetres that is.
std::optional<double> slip_mm(double off_mm, EyeMethod method) {
  constexpr double kNearMm = 0.2;
  const std::vector<double> slips =
      method == EyeMethod::holes ? std::vector<double>{0.5, 1.0} : std::vector<double>{1.0};
  for (const double slip : slips) {
    if (std::abs(std::abs(off_mm) - slip) < kNearMm) return slip;
  }
  return std::nullopt;
}

Finding what_is_wrong(const std::string& place, double off_mm, EyeMethod method, bool left_out) {
  if (const auto slip = slip_mm(off_mm, method)) {
    return left_out ? findings::misread_left_out(place, Length{*slip})
                    : findings::misread(place, Length{*slip});
  }
  const Length off{std::abs(off_mm)};
  return left_out ? findings::reading_left_out(place, off) : findings::reading_off(place, off);
}

double rms_mm(const Observations& observations, const DisplacementFit& fitted) {
  double squares = 0.0;
  for (const Observation& o : observations) squares += std::pow(residual_mm(o, fitted), 2);
  return std::sqrt(squares / static_cast<double>(observations.size()));
}

/// Observations of a place, as a feature: both directions of a hole, or one.
std::vector<FeatureReading> features_of(const Observations& observations,
                                        const DisplacementFit& fitted) {
  std::vector<FeatureReading> features;
  for (const Observation& o : observations) {
    const DisplacementObservation& d = o.displacement;
    const bool second = !features.empty() && features.back().id == o.place;
    if (!second) {
      features.push_back({o.place, d.at, {0.0, 0.0}, o.sd_mm, {0.0, 0.0}, d.direction});
    }
    FeatureReading& feature = features.back();
    feature.e_mm += d.value_mm * d.direction;
    feature.residual_mm += residual_mm(o, fitted) * d.direction;
    if (second) feature.normal.reset();
  }
  return features;
}

Result<SheetReading> register_readings(Observations observations, EyeMethod method) {
  SheetReading sheet;
  auto fitted = fit(observations);
  if (observations.size() < 3 || !fitted) {
    return findings::too_few_readings(Term{method == EyeMethod::holes ? "holes" : "scales"});
  }
  for (int left_out = 0; fitted->dof > 0; ++left_out) {
    const Suspect suspect = worst_of(observations);
    if (suspect.sigmas < kOutlierSigmas) break;
    if (left_out == kMostLeftOut) {
      return findings::readings_contradict(Length{rms_mm(observations, *fitted)},
                                           Length{kFailRmsMm});
    }
    const std::string name = observations[suspect.index].name;
    Observations rest = observations;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(suspect.index));
    const auto without = fit(rest);
    if (fitted->dof < kLeastSpare || !without) {
      sheet.warnings.push_back(what_is_wrong(name, suspect.off_mm, method, false));
      break;
    }
    sheet.warnings.push_back(what_is_wrong(name, suspect.off_mm, method, true));
    observations = std::move(rest);
    fitted = without;
  }
  const double rms = rms_mm(observations, *fitted);
  const bool leans_too_much = fitted->nuisance.size() == 2 && fitted->nuisance.norm() > kMostLeanMm;
  if (rms > kFailRmsMm || leans_too_much) {
    return findings::readings_contradict(Length{rms}, Length{kFailRmsMm});
  }
  if (rms > kWarnRmsMm) {
    sheet.warnings.push_back(findings::readings_disagree(Length{rms}));
  }
  if (fitted->dof == 0) {
    sheet.warnings.push_back(findings::readings_unchecked());
  }
  sheet.registration = fitted->registration;
  sheet.covariance = fitted->covariance;
  sheet.model = fitted->model;
  sheet.residual_rms_mm = rms;
  sheet.features = features_of(observations, *fitted);
  if (fitted->nuisance.size() == 2) {
    sheet.lean = PrickLean{fitted->nuisance, std::sqrt(fitted->nuisance_covariance.trace() / 2)};
  }
  return sheet;
}

SheetReading registration_of_values(const EyeRow& row) {
  SheetReading sheet;
  const double sd = row.numbers[3].value_or(kUsualKnownToMm) / kTwoSigma;
  sheet.model = RegistrationModel::rigid;
  sheet.registration.dx_mm = *row.numbers[0];
  sheet.registration.dy_mm = *row.numbers[1];
  double rotation_sd = std::sqrt(2.0) * sd / kRotationArmMm * 1e3;
  if (row.numbers[2]) {
    sheet.registration.rotation_mrad = *row.numbers[2] * std::numbers::pi / 180.0 * 1e3;
  } else {
    rotation_sd = kUnreadRotationMrad;
    sheet.warnings.push_back(findings::rotation_unknown());
  }
  sheet.covariance.diagonal() << sd * sd, sd * sd, rotation_sd * rotation_sd, 0, 0, 0;
  return sheet;
}

Observations observations_of(const std::vector<const EyeRow*>& rows, const EyeTable& table,
                             const TargetGeometry& geometry, double rounding_mm) {
  Observations observations;
  for (const EyeRow* row : rows) {
    if (table.method == EyeMethod::holes) {
      add_hole(*row, geometry, rounding_mm, observations);
    } else {
      add_vernier_reading(*row, geometry, rounding_mm, observations);
    }
  }
  return observations;
}

/// A value that is far from those of the other sheets, and near them with its sign changed.
void name_swapped_signs(std::vector<SheetReading>& sheets) {
  constexpr std::size_t kLeastSheets = 4;
  constexpr double kFar = 6.0;
  constexpr double kNear = 3.0;
  constexpr std::array<double, 3> kLeastSpread = {0.05, 0.05, 0.3};
  constexpr std::array<std::string_view, 3> kNames = {"dx_mm", "dy_mm", "rotation_mrad"};
  if (sheets.size() < kLeastSheets) return;
  for (int c = 0; c < 3; ++c) {
    std::vector<double> values;
    for (const SheetReading& s : sheets) values.push_back(s.registration.vec()[c]);
    const double middle = median(values);
    std::vector<double> distances;
    for (const double v : values) distances.push_back(std::abs(v - middle));
    const double spread =
        std::max(kLeastSpread[static_cast<std::size_t>(c)], kSdPerMedian * median(distances));
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      if (std::abs(values[i] - middle) < kFar * spread ||
          std::abs(-values[i] - middle) > kNear * spread) {
        continue;
      }
      sheets[i].warnings.push_back(
          findings::sign_swapped(Term{kNames[static_cast<std::size_t>(c)]}));
    }
  }
}

Finding how_it_was_read(EyeMethod method, std::size_t features) {
  const auto count = static_cast<std::int64_t>(features);
  switch (method) {
    case EyeMethod::holes:
      return findings::read_on_nets(count);
    case EyeMethod::verniers:
      return findings::read_on_scales(count);
    case EyeMethod::values:
      break;
  }
  return findings::given_as_values();
}

}  // namespace

double reading_step_mm(const EyeTable& table) {
  for (const double step : {0.5, 0.25, 0.2, 0.1, 0.05}) {
    const bool all = std::all_of(table.rows.begin(), table.rows.end(), [&](const EyeRow& row) {
      return std::all_of(row.numbers.begin(), row.numbers.end(), [&](const auto& number) {
        return !number || std::abs(std::remainder(*number, step)) < 1e-6;
      });
    });
    if (all) return step;
  }
  return kFinestStepMm;
}

Readings register_by_eye(const EyeTable& table, const std::string& file) {
  Readings readings;
  readings.turn = table.turn;
  readings.paper = table.paper;
  readings.created = utc_now();
  const TargetGeometry geometry = target_geometry(table.paper, table.turn);
  const double rounding_mm = reading_step_mm(table) / std::sqrt(12.0);  // uniform within a step
  std::map<int, std::vector<const EyeRow*>> sheets;
  for (const EyeRow& row : table.rows) sheets[row.sheet].push_back(&row);
  for (const auto& [number, rows] : sheets) {
    Result<SheetReading> sheet =
        table.method == EyeMethod::values
            ? Result<SheetReading>(registration_of_values(*rows.front()))
            : register_readings(observations_of(rows, table, geometry, rounding_mm), table.method);
    if (!sheet) {
      readings.rejected.push_back({{file}, number, sheet.refusal()});
      continue;
    }
    SheetReading& read = sheet.value();
    read.sheet = number;
    read.datum.by_eye = true;
    read.datum_notes = {how_it_was_read(table.method, read.features.size())};
    read.files = {file};
    readings.sheets.push_back(std::move(read));
  }
  name_swapped_signs(readings.sheets);
  return readings;
}

}  // namespace versolay
