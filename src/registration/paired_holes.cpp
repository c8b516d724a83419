#include "registration/paired_holes.h"

#include <algorithm>
#include <cmath>

namespace versolay {
namespace {

Eigen::Vector2d place(const CombinedHoles& holes, std::size_t i) {
  return holes.at_mm.segment<2>(static_cast<Eigen::Index>(2 * i));
}

Eigen::Matrix2d block(const Eigen::MatrixXd& m, std::size_t i, std::size_t j) {
  return m.block<2, 2>(static_cast<Eigen::Index>(2 * i), static_cast<Eigen::Index>(2 * j));
}

}  // namespace

CombinedHoles combine_scans(const std::vector<SideReading>& scans) {
  CombinedHoles combined;
  std::map<std::string, std::size_t> index;
  for (const SideReading& scan : scans) {
    for (const SideHole& hole : scan.holes) {
      if (!index.emplace(hole.id, combined.ids.size()).second) continue;
      combined.ids.push_back(hole.id);
      combined.kinds.push_back(hole.kind);
    }
  }
  const auto n = static_cast<Eigen::Index>(combined.ids.size());
  std::vector<double> times(combined.ids.size(), 0.0);
  for (const SideReading& scan : scans) {
    for (const SideHole& hole : scan.holes) times[index[hole.id]] += 1.0;
  }
  combined.at_mm = Eigen::VectorXd::Zero(2 * n);
  combined.covariance_mm2 = Eigen::MatrixXd::Zero(2 * n, 2 * n);
  for (const SideReading& scan : scans) {
    for (std::size_t a = 0; a < scan.holes.size(); ++a) {
      const std::size_t i = index[scan.holes[a].id];
      combined.at_mm.segment<2>(static_cast<Eigen::Index>(2 * i)) +=
          scan.holes[a].at.vec() / times[i];
      for (std::size_t b = 0; b < scan.holes.size(); ++b) {
        const std::size_t j = index[scan.holes[b].id];
        combined.covariance_mm2.block<2, 2>(static_cast<Eigen::Index>(2 * i),
                                            static_cast<Eigen::Index>(2 * j)) +=
            block(scan.hole_covariance_mm2, a, b) / (times[i] * times[j]);
      }
    }
  }
  return combined;
}

PairedHoles PairedHoles::by_name(const CombinedHoles& recto, const CombinedHoles& verso,
                                 TurnAxis axis) {
  PairedHoles pairs;
  for (std::size_t r = 0; r < recto.ids.size(); ++r) {
    const auto found = std::find(verso.ids.begin(), verso.ids.end(), recto.ids[r]);
    if (found == verso.ids.end()) continue;
    pairs.add(recto, r, verso, static_cast<std::size_t>(found - verso.ids.begin()), axis);
  }
  pairs.set_covariance(recto, verso, axis);
  return pairs;
}

PairedHoles PairedHoles::by_place(const CombinedHoles& recto, const CombinedHoles& verso,
                                  TurnAxis axis, double reach_mm) {
  PairedHoles pairs;
  for (std::size_t r = 0; r < recto.ids.size(); ++r) {
    const Eigen::Vector2d expected = verso_from_recto(axis).linear() * place(recto, r);
    for (std::size_t v = 0; v < verso.ids.size(); ++v) {
      if ((place(verso, v) - expected).norm() <= reach_mm) pairs.add(recto, r, verso, v, axis);
    }
  }
  pairs.set_covariance(recto, verso, axis);
  return pairs;
}

bool PairedHoles::has(HoleKind kind) const {
  return std::find(kinds_.begin(), kinds_.end(), kind) != kinds_.end();
}

void PairedHoles::add(const CombinedHoles& recto, std::size_t r, const CombinedHoles& verso,
                      std::size_t v, TurnAxis axis) {
  FeatureReading feature;
  feature.id = recto.ids[r];
  feature.at = Point<VersoMm>::from(place(verso, v));
  feature.e_mm = verso_from_recto(axis).linear() * place(recto, r) - place(verso, v);
  features_.push_back(feature);
  kinds_.push_back(recto.kinds[r]);
  indices_.emplace_back(r, v);
}

void PairedHoles::set_covariance(const CombinedHoles& recto, const CombinedHoles& verso,
                                 TurnAxis axis) {
  const Eigen::Matrix2d mirror = verso_from_recto(axis).linear();
  const auto n = static_cast<Eigen::Index>(features_.size());
  covariance_mm2_.resize(2 * n, 2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto [ri, vi] = indices_[static_cast<std::size_t>(i)];
    for (Eigen::Index j = 0; j < n; ++j) {
      const auto [rj, vj] = indices_[static_cast<std::size_t>(j)];
      covariance_mm2_.block<2, 2>(2 * i, 2 * j) =
          mirror * block(recto.covariance_mm2, ri, rj) * mirror +
          block(verso.covariance_mm2, vi, vj);
    }
    features_[static_cast<std::size_t>(i)].sd_mm =
        std::sqrt(covariance_mm2_.block<2, 2>(2 * i, 2 * i).trace() / 2);
  }
}

std::optional<DisplacementFit> PairedHoles::fit() {
  std::vector<DisplacementObservation> observations;
  for (const FeatureReading& f : features_) {
    observations.push_back({f.at, {1.0, 0.0}, f.e_mm.x()});
    observations.push_back({f.at, {0.0, 1.0}, f.e_mm.y()});
  }
  auto result = fit_displacements(observations, covariance_mm2_,
                                  model_for_features(static_cast<int>(features_.size())));
  if (result) {
    for (FeatureReading& f : features_) {
      f.residual_mm = f.e_mm - result->registration.displacement_mm(f.at);
    }
  }
  return result;
}

void PairedHoles::remove(std::size_t i) {
  std::vector<Eigen::Index> left;
  for (Eigen::Index k = 0; k < covariance_mm2_.rows(); ++k) {
    if (k / 2 != static_cast<Eigen::Index>(i)) left.push_back(k);
  }
  covariance_mm2_ = covariance_mm2_(left, left).eval();
  const auto at = static_cast<std::ptrdiff_t>(i);
  features_.erase(features_.begin() + at);
  kinds_.erase(kinds_.begin() + at);
  indices_.erase(indices_.begin() + at);
}

}  // namespace versolay
