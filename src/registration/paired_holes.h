// Holes that were read on both sides of a sheet, as displacements with their joint covariance.
#pragma once

#include <Eigen/Core>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "measure/side_reading.h"
#include "registration/displacement_fit.h"
#include "versolay/readings.h"

namespace versolay {

/// The holes of one side, several scans of it averaged hole by hole.
struct CombinedHoles {
  std::vector<std::string> ids;
  std::vector<HoleKind> kinds;
  Eigen::VectorXd at_mm;           // 2n: x, y of the first hole, of the second, ...
  Eigen::MatrixXd covariance_mm2;  // 2n x 2n
};
CombinedHoles combine_scans(const std::vector<SideReading>& scans);

/// Displacements e = M x_recto - x_verso, in the verso view.
class PairedHoles {
 public:
  /// Pairs holes of the same name.
  static PairedHoles by_name(const CombinedHoles& recto, const CombinedHoles& verso, TurnAxis axis);
  /// Pairs holes that lie within `reach_mm` of each other under the mirror of `axis`.
  static PairedHoles by_place(const CombinedHoles& recto, const CombinedHoles& verso, TurnAxis axis,
                              double reach_mm);

  std::size_t size() const { return features_.size(); }
  const std::vector<FeatureReading>& features() const { return features_; }
  HoleKind kind(std::size_t i) const { return kinds_[i]; }
  bool has(HoleKind kind) const;

  /// Fits the model that this many holes can carry, and sets the residuals of the features.
  std::optional<DisplacementFit> fit();
  void remove(std::size_t i);

 private:
  void add(const CombinedHoles& recto, std::size_t r, const CombinedHoles& verso, std::size_t v,
           TurnAxis axis);
  void set_covariance(const CombinedHoles& recto, const CombinedHoles& verso, TurnAxis axis);

  std::vector<FeatureReading> features_;
  std::vector<HoleKind> kinds_;
  std::vector<std::pair<std::size_t, std::size_t>> indices_;  // in recto, in verso
  Eigen::MatrixXd covariance_mm2_;
};

}  // namespace versolay
