#include "registration/paired_features.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/linear_algebra.h"
#include "registration/edge_names.h"

namespace versolay {
namespace {

Eigen::Matrix2d block(const Eigen::MatrixXd& m, std::size_t i, std::size_t j) {
  return m.block<2, 2>(static_cast<Eigen::Index>(2 * i), static_cast<Eigen::Index>(2 * j));
}

/// See shape_difference_mm(). Under either mirror an angle's cosine of twice itself stays, and its
/// sine changes sign.
double shape_difference(const SideFeature& front, const SideFeature& back) {
  if (front.kind == FeatureKind::edge) return 0.0;
  const Eigen::Vector2d mirrored(front.oval_mm.x(), -front.oval_mm.y());
  return std::hypot(front.radius_mm - back.radius_mm, (mirrored - back.oval_mm).norm());
}

/// What a hole that looks different from the two sides may be off by, beyond what good ones do.
double shape_variance_mm2(double difference_mm) {
  constexpr double kUsualMm = 0.03;
  constexpr double kMovedByDifference = std::numbers::sqrt2;  // e / 2 for hypot(e / 4, e / 4)
  if (difference_mm <= kUsualMm) return 0.0;
  return std::pow(kMovedByDifference * difference_mm, 2);
}

// How well a punch cuts says nothing of how well the paper was cut.
enum VarianceGroup : std::size_t { kHoles, kEdges };

}  // namespace

PairedFeatures PairedFeatures::by_name(const CombinedFeatures& recto, const CombinedFeatures& verso,
                                       TurnAxis axis) {
  PairedFeatures pairs;
  for (std::size_t r = 0; r < recto.features.size(); ++r) {
    for (std::size_t v = 0; v < verso.features.size(); ++v) {
      if (recto.features[r].id == verso.features[v].id) pairs.add(recto, r, verso, v, axis);
    }
  }
  pairs.set_covariance(recto, verso, axis);
  return pairs;
}

PairedFeatures PairedFeatures::by_place(const CombinedFeatures& recto,
                                        const CombinedFeatures& verso, TurnAxis axis,
                                        double reach_mm) {
  PairedFeatures pairs;
  for (std::size_t r = 0; r < recto.features.size(); ++r) {
    if (is_edge(recto.features[r].kind)) continue;
    const Eigen::Vector2d expected = verso_from_recto(axis).linear() * recto.features[r].at.vec();
    for (std::size_t v = 0; v < verso.features.size(); ++v) {
      if (recto.features[r].kind == verso.features[v].kind &&
          (verso.features[v].at.vec() - expected).norm() <= reach_mm) {
        pairs.add(recto, r, verso, v, axis);
      }
    }
  }
  pairs.set_covariance(recto, verso, axis);
  return pairs;
}

void PairedFeatures::add(const CombinedFeatures& recto, std::size_t r,
                         const CombinedFeatures& verso, std::size_t v, TurnAxis axis) {
  const SideFeature& front = recto.features[r];
  const SideFeature& back = verso.features[v];
  FeatureReading reading;
  reading.id = front.id;
  reading.at = relabel<VersoMm>(back.at);
  reading.e_mm = verso_from_recto(axis).linear() * front.at.vec() - back.at.vec();
  if (is_edge(front.kind)) {
    reading.normal = back.normal;
    reading.e_mm = back.normal * back.normal.dot(reading.e_mm);
  }
  readings_.push_back(reading);
  kinds_.push_back(front.kind);
  pin_signs_.push_back(front.pin_sign);
  shape_differences_mm_.push_back(shape_difference(front, back));
  indices_.emplace_back(r, v);
}

void PairedFeatures::set_covariance(const CombinedFeatures& recto, const CombinedFeatures& verso,
                                    TurnAxis axis) {
  const Eigen::Matrix2d mirror = verso_from_recto(axis).linear();
  const auto n = static_cast<Eigen::Index>(readings_.size());
  covariance_mm2_.resize(2 * n, 2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto [ri, vi] = indices_[static_cast<std::size_t>(i)];
    for (Eigen::Index j = 0; j < n; ++j) {
      const auto [rj, vj] = indices_[static_cast<std::size_t>(j)];
      covariance_mm2_.block<2, 2>(2 * i, 2 * j) =
          mirror * block(recto.covariance_mm2, ri, rj) * mirror +
          block(verso.covariance_mm2, vi, vj);
    }
    covariance_mm2_.block<2, 2>(2 * i, 2 * i).diagonal().array() +=
        shape_variance_mm2(shape_differences_mm_[static_cast<std::size_t>(i)]);
    FeatureReading& reading = readings_[static_cast<std::size_t>(i)];
    const Eigen::Matrix2d own = covariance_mm2_.block<2, 2>(2 * i, 2 * i);
    reading.sd_mm =
        std::sqrt(reading.normal ? reading.normal->dot(own * *reading.normal) : own.trace() / 2);
  }
}

int PairedFeatures::count(FeatureKind kind) const {
  return static_cast<int>(std::count(kinds_.begin(), kinds_.end(), kind));
}

PairedFeatures PairedFeatures::keep(const std::vector<std::size_t>& indices) const {
  PairedFeatures kept;
  std::vector<Eigen::Index> rows;
  for (const std::size_t i : indices) {
    kept.readings_.push_back(readings_[i]);
    kept.kinds_.push_back(kinds_[i]);
    kept.pin_signs_.push_back(pin_signs_[i]);
    kept.shape_differences_mm_.push_back(shape_differences_mm_[i]);
    kept.indices_.push_back(indices_[i]);
    rows.push_back(static_cast<Eigen::Index>(2 * i));
    rows.push_back(static_cast<Eigen::Index>(2 * i + 1));
  }
  kept.covariance_mm2_ = covariance_mm2_(rows, rows);
  return kept;
}

PairedFeatures PairedFeatures::subset(const std::function<bool(FeatureKind)>& wanted) const {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < size(); ++i) {
    if (wanted(kinds_[i])) indices.push_back(i);
  }
  return keep(indices);
}

PairedFeatures PairedFeatures::named(const std::set<std::string>& names) const {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < size(); ++i) {
    if (names.contains(readings_[i].id)) indices.push_back(i);
  }
  return keep(indices);
}

void PairedFeatures::remove(std::size_t removed) {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < size(); ++i) {
    if (i != removed) indices.push_back(i);
  }
  *this = keep(indices);
}

RegistrationModel PairedFeatures::model() const {
  const int holes = count(FeatureKind::punch) + count(FeatureKind::prick);
  std::array<bool, kEdgeNames.size()> edge_seen{};
  for (const FeatureReading& reading : readings_) {
    if (reading.normal) edge_seen[edge_index(*reading.normal)] = true;
  }
  if (std::count(edge_seen.begin(), edge_seen.end(), true) == 4) return RegistrationModel::affine;
  return model_for_features(holes);
}

bool PairedFeatures::has_both_halves_of_the_pricks() const {
  const auto made = [&](int sign) {
    return std::count(pin_signs_.begin(), pin_signs_.end(), sign);
  };
  return made(1) >= 2 && made(-1) >= 2;
}

std::optional<DisplacementFit> PairedFeatures::fit() {
  const bool with_lean = has_both_halves_of_the_pricks();
  std::vector<Eigen::Vector2d> lean_rows;
  std::vector<DisplacementObservation> observations;
  std::vector<Eigen::RowVectorXd> rows;
  for (std::size_t i = 0; i < size(); ++i) {
    const FeatureReading& f = readings_[i];
    std::vector<Eigen::Vector2d> directions = {{1.0, 0.0}, {0.0, 1.0}};
    if (f.normal) directions = {*f.normal};
    for (const Eigen::Vector2d& direction : directions) {
      observations.push_back(
          {f.at, direction, direction.dot(f.e_mm), is_edge(kinds_[i]) ? kEdges : kHoles});
      lean_rows.push_back(pin_signs_[i] * direction);
      Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(covariance_mm2_.cols());
      row.segment<2>(static_cast<Eigen::Index>(2 * i)) = direction.transpose();
      rows.push_back(std::move(row));
    }
  }
  Eigen::MatrixXd select(static_cast<Eigen::Index>(rows.size()), covariance_mm2_.cols());
  for (std::size_t i = 0; i < rows.size(); ++i) select.row(static_cast<Eigen::Index>(i)) = rows[i];
  Eigen::MatrixXd nuisance(select.rows(), with_lean ? 2 : 0);
  for (Eigen::Index i = 0; i < nuisance.rows() && with_lean; ++i) {
    nuisance.row(i) = lean_rows[static_cast<std::size_t>(i)].transpose();
  }
  const bool edges_alone = count(FeatureKind::edge) == static_cast<int>(size());
  auto result = fit_displacements(observations, propagated(select, covariance_mm2_), nuisance,
                                  model(), edges_alone ? 1.0 : 0.0);
  if (result) {
    for (std::size_t i = 0; i < size(); ++i) {
      FeatureReading& f = readings_[i];
      f.residual_mm = f.e_mm - result->registration.displacement_mm(f.at);
      if (with_lean) f.residual_mm -= pin_signs_[i] * result->nuisance;
      if (f.normal) f.residual_mm = *f.normal * f.normal->dot(f.residual_mm);
    }
  }
  return result;
}

double PairedFeatures::residual_rms_mm(const std::function<bool(FeatureKind)>& wanted) const {
  double squares = 0.0;
  int observations = 0;
  for (std::size_t i = 0; i < size(); ++i) {
    if (!wanted(kinds_[i])) continue;
    squares += readings_[i].residual_mm.squaredNorm();
    observations += readings_[i].normal ? 1 : 2;
  }
  return observations == 0 ? 0.0 : std::sqrt(squares / observations);
}

}  // namespace versolay
