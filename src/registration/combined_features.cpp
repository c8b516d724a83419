#include "registration/combined_features.h"

#include <Eigen/Dense>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "core/linear_algebra.h"
#include "core/statement.h"

namespace versolay {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kSameWayCosine = 0.7;  // 45 degrees: half of a quarter turn

/// What is known of a feature, as rows: both axes of a hole, the normal of an edge.
MatrixXd known_directions(const SideFeature& feature) {
  if (feature.kind == FeatureKind::edge) return feature.normal.transpose();
  return Eigen::Matrix2d::Identity();
}

/// The unknowns: one or two coordinates for each feature that any scan shows.
class Unknowns {
 public:
  explicit Unknowns(const std::vector<SideReading>& scans) {
    for (const SideReading& scan : scans) {
      for (const SideFeature& feature : scan.places.features) {
        if (!index_.emplace(feature.id, features_.size()).second) continue;
        features_.push_back(feature);
        first_.push_back(size_);
        size_ += known_directions(feature).rows();
      }
    }
  }

  Index size() const { return size_; }
  const std::vector<SideFeature>& features() const { return features_; }
  Index first_of(const std::string& id) const { return first_[index_.at(id)]; }
  std::size_t index_of(const std::string& id) const { return index_.at(id); }
  /// 2n x size: from the unknowns to x, y of every feature.
  MatrixXd page_from_unknowns() const {
    MatrixXd expand = MatrixXd::Zero(2 * static_cast<Index>(features_.size()), size_);
    for (std::size_t i = 0; i < features_.size(); ++i) {
      const MatrixXd directions = known_directions(features_[i]);
      expand.block(static_cast<Index>(2 * i), first_[i], 2, directions.rows()) =
          directions.transpose();
    }
    return expand;
  }

 private:
  std::map<std::string, std::size_t> index_;
  std::vector<SideFeature> features_;
  std::vector<Index> first_;
  Index size_ = 0;
};

/// One scan as observations of the unknowns.
struct Observed {
  std::vector<Index> unknown;  // of each value
  VectorXd value_mm;
  MatrixXd covariance_mm2;
  MatrixXd ring_response;
};

Observed observed(const SideReading& scan, const Unknowns& unknowns) {
  Observed seen;
  std::vector<MatrixXd> directions;
  Index rows = 0;
  for (const SideFeature& feature : scan.places.features) {
    directions.push_back(known_directions(feature));
    rows += directions.back().rows();
  }
  MatrixXd known = MatrixXd::Zero(rows, 2 * static_cast<Index>(scan.places.features.size()));
  seen.value_mm.resize(rows);
  Index row = 0;
  for (std::size_t i = 0; i < scan.places.features.size(); ++i) {
    const MatrixXd& d = directions[i];
    known.block(row, static_cast<Index>(2 * i), d.rows(), 2) = d;
    seen.value_mm.segment(row, d.rows()) = d * scan.places.features[i].at.vec();
    for (Index k = 0; k < d.rows(); ++k) {
      seen.unknown.push_back(unknowns.first_of(scan.places.features[i].id) + k);
    }
    row += d.rows();
  }
  seen.covariance_mm2 = propagated(known, scan.places.scan_covariance_mm2);
  seen.ring_response = product(known, scan.places.ring_response);
  return seen;
}

/// Columns of the rings of all scans; rings at one nominal place are one ring.
class Rings {
 public:
  explicit Rings(const std::vector<SideReading>& scans) {
    for (const SideReading& scan : scans) {
      for (const RingUse& ring : scan.rings) {
        column_.emplace(key(ring), 2 * static_cast<Index>(column_.size()));
      }
    }
  }
  Index columns() const { return 2 * static_cast<Index>(column_.size()); }
  Index column_of(const RingUse& ring) const { return column_.at(key(ring)); }

 private:
  static std::pair<double, double> key(const RingUse& ring) { return {ring.page.x, ring.page.y}; }
  std::map<std::pair<double, double>, Index> column_;
};

double orientation_rad(const SideReading& scan) {
  const Eigen::Matrix2d& m = scan.page_from_scan.linear();
  return std::atan2(m(1, 0) - m(0, 1), m(0, 0) + m(1, 1));
}

std::vector<ScanDifference> differences_of(const std::vector<SideReading>& scans,
                                           const std::vector<Observed>& seen) {
  std::vector<ScanDifference> differences;
  for (std::size_t a = 0; a < scans.size(); ++a) {
    for (std::size_t b = a + 1; b < scans.size(); ++b) {
      ScanDifference difference{a, b};
      double squares = 0.0;
      for (std::size_t i = 0; i < seen[a].unknown.size(); ++i) {
        for (std::size_t j = 0; j < seen[b].unknown.size(); ++j) {
          if (seen[a].unknown[i] != seen[b].unknown[j]) continue;
          squares += std::pow(
              seen[a].value_mm[static_cast<Index>(i)] - seen[b].value_mm[static_cast<Index>(j)], 2);
          ++difference.values;
        }
      }
      if (difference.values == 0) continue;
      difference.rms_mm = std::sqrt(squares / difference.values);
      difference.turned =
          std::cos(orientation_rad(scans[a]) - orientation_rad(scans[b])) < kSameWayCosine;
      differences.push_back(difference);
    }
  }
  return differences;
}

/// Mean place of every feature: of an edge, where along it.
std::vector<Eigen::Vector2d> mean_places(const std::vector<SideReading>& scans,
                                         const Unknowns& unknowns) {
  std::vector<Eigen::Vector2d> sums(unknowns.features().size(), Eigen::Vector2d::Zero());
  std::vector<int> times(sums.size(), 0);
  for (const SideReading& scan : scans) {
    for (const SideFeature& feature : scan.places.features) {
      const std::size_t i = unknowns.index_of(feature.id);
      sums[i] += feature.at.vec();
      ++times[i];
    }
  }
  for (std::size_t i = 0; i < sums.size(); ++i) sums[i] /= times[i];
  return sums;
}

/// Normal equations of the unknowns, and how their right side answers to the rings.
struct NormalEquations {
  MatrixXd normal;
  VectorXd right;
  MatrixXd ring_response;
  Index values = 0;

  NormalEquations(Index unknowns, Index ring_columns)
      : normal(MatrixXd::Zero(unknowns, unknowns)),
        right(VectorXd::Zero(unknowns)),
        ring_response(MatrixXd::Zero(unknowns, ring_columns)) {}

  void add(const SideReading& scan, const Observed& o, const Rings& rings) {
    const auto n = static_cast<Index>(o.unknown.size());
    const MatrixXd weights = Cholesky(o.covariance_mm2).inverse();
    normal(o.unknown, o.unknown) += weights;
    right(o.unknown) += weights * o.value_mm;
    const MatrixXd response = product(weights, o.ring_response);
    for (std::size_t i = 0; i < scan.rings.size(); ++i) {
      const Index column = rings.column_of(scan.rings[i]);
      for (Index row = 0; row < n; ++row) {
        ring_response.row(o.unknown[static_cast<std::size_t>(row)]).segment<2>(column) +=
            response.row(row).segment<2>(static_cast<Index>(2 * i));
      }
    }
    values += n;
  }
};

double mean_ring_variance_mm2(const std::vector<SideReading>& scans) {
  double sum = 0.0;
  for (const SideReading& scan : scans) sum += scan.places.ring_sd_mm * scan.places.ring_sd_mm;
  return sum / static_cast<double>(scans.size());
}

}  // namespace

CombinedFeatures combine_scans(const std::vector<SideReading>& scans) {
  const Unknowns unknowns(scans);
  CombinedFeatures combined;
  combined.features = unknowns.features();
  if (combined.features.empty()) return combined;

  const Rings rings(scans);
  std::vector<Observed> seen;
  NormalEquations equations(unknowns.size(), rings.columns());
  for (const SideReading& scan : scans) {
    seen.push_back(observed(scan, unknowns));
    if (!scan.places.features.empty()) equations.add(scan, seen.back(), rings);
  }
  const Cholesky factor(equations.normal);
  const VectorXd solution = factor.solve(equations.right);
  const MatrixXd cofactor = factor.inverse();
  const MatrixXd ring_response = product(cofactor, equations.ring_response);

  double chi2 = 0.0;
  for (const Observed& o : seen) {
    if (o.unknown.empty()) continue;
    const VectorXd residual = o.value_mm - solution(o.unknown);
    chi2 += residual.dot(Cholesky(o.covariance_mm2).solve(residual));
  }
  combined.differences = differences_of(scans, seen);
  combined.scan_variance_factor =
      (kStatementDof + chi2) /
      (kStatementDof + static_cast<double>(equations.values - unknowns.size()));

  const MatrixXd expand = unknowns.page_from_unknowns();
  const MatrixXd covariance =
      combined.scan_variance_factor * cofactor +
      mean_ring_variance_mm2(scans) * outer_product(ring_response, ring_response);
  combined.covariance_mm2 =
      propagated(expand, covariance) + repeated_covariance_mm2(combined.features);
  const VectorXd known = expand * solution;
  const std::vector<Eigen::Vector2d> means = mean_places(scans, unknowns);
  for (std::size_t i = 0; i < combined.features.size(); ++i) {
    SideFeature& feature = combined.features[i];
    Eigen::Vector2d at = known.segment<2>(static_cast<Index>(2 * i));
    if (feature.kind == FeatureKind::edge) {
      at += means[i] - feature.normal * feature.normal.dot(means[i]);
    }
    feature.at = Point<PageMm>::from(at);
  }
  return combined;
}

}  // namespace versolay
