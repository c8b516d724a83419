// Features of the paper that were read on both sides of a sheet, as displacements with their
// joint covariance.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "registration/combined_features.h"
#include "registration/displacement_fit.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// Displacements e = M x_recto - x_verso, in the verso view.
class PairedFeatures {
 public:
  /// Pairs features of the same name.
  static PairedFeatures by_name(const CombinedFeatures& recto, const CombinedFeatures& verso,
                                TurnAxis axis);
  /// Pairs holes that lie within `reach_mm` of each other under the mirror of `axis`.
  static PairedFeatures by_place(const CombinedFeatures& recto, const CombinedFeatures& verso,
                                 TurnAxis axis, double reach_mm);

  std::size_t size() const { return readings_.size(); }
  const std::vector<FeatureReading>& readings() const { return readings_; }
  FeatureKind kind(std::size_t i) const { return kinds_[i]; }
  /// How differently a hole looks from the two sides, mm: in its radius and in the second harmonic
  /// of its outline. A tear that makes it longer by e on one side changes both by e / 4, and moves
  /// its middle by e / 2. 0 for edges.
  double shape_difference_mm(std::size_t i) const { return shape_differences_mm_[i]; }
  int count(FeatureKind kind) const;
  /// Those for which `wanted` is true, in the same order.
  PairedFeatures subset(const std::function<bool(FeatureKind)>& wanted) const;
  /// Those with these names.
  PairedFeatures named(const std::set<std::string>& names) const;
  void remove(std::size_t i);

  /// Fits the model that these features can carry, and sets the residuals of the readings.
  /// @return nullopt when they do not determine it.
  /// The lean of the pin is a nuisance effect (x, y) where pricks of both halves are there.
  std::optional<DisplacementFit> fit();
  /// Root mean square of the residuals of one kind of feature, one axis, mm; 0 without features.
  double residual_rms_mm(const std::function<bool(FeatureKind)>& wanted) const;

 private:
  PairedFeatures keep(const std::vector<std::size_t>& indices) const;
  void add(const CombinedFeatures& recto, std::size_t r, const CombinedFeatures& verso,
           std::size_t v, TurnAxis axis);
  void set_covariance(const CombinedFeatures& recto, const CombinedFeatures& verso, TurnAxis axis);
  RegistrationModel model() const;
  bool has_both_halves_of_the_pricks() const;

  std::vector<FeatureReading> readings_;
  std::vector<FeatureKind> kinds_;
  std::vector<double> shape_differences_mm_;
  std::vector<std::pair<std::size_t, std::size_t>> indices_;  // in recto, in verso
  std::vector<int> pin_signs_;                                // HolePlace::pin_sign()
  Eigen::MatrixXd covariance_mm2_;                            // 2n x 2n, of e
};

inline bool is_hole(FeatureKind kind) { return kind != FeatureKind::edge; }
inline bool is_edge(FeatureKind kind) { return kind == FeatureKind::edge; }

}  // namespace versolay
