#include "registration/pass_lays.h"

#include <map>
#include <string>

#include "measure/pass_rings.h"
#include "registration/combined_features.h"
#include "registration/displacement_fit.h"
#include "target/pass_marks.h"

namespace versolay {
namespace {

/// The scans with the rings of further passes in place of holes and edges.
std::vector<SideReading> by_pass_rings(const std::vector<SideReading>& scans) {
  std::vector<SideReading> list;
  for (const SideReading& scan : scans) {
    SideReading& one = list.emplace_back();
    one.page_from_scan = scan.page_from_scan;
    one.rings = scan.rings;
    one.places = scan.pass_places;
  }
  return list;
}

}  // namespace

std::vector<PassLay> pass_lays(const std::vector<SideReading>& scans) {
  const TargetGeometry& geometry = scans.front().geometry;
  std::vector<PassLay> lays;
  if (geometry.passes.empty()) return lays;
  const CombinedFeatures seen = combine_scans(by_pass_rings(scans));
  std::map<std::string, Eigen::Index> index;
  for (std::size_t i = 0; i < seen.features.size(); ++i) {
    index.emplace(seen.features[i].id, static_cast<Eigen::Index>(i));
  }
  for (const PassMarks& pass : geometry.passes) {
    std::vector<DisplacementObservation> observations;
    std::vector<Eigen::Index> rows;
    for (std::size_t i = 0; i < pass.rings.size(); ++i) {
      const auto found = index.find(pass_ring_id(pass.pass, i));
      if (found == index.end()) continue;
      const Eigen::Vector2d e =
          seen.features[static_cast<std::size_t>(found->second)].at.vec() - pass.rings[i].vec();
      for (Eigen::Index axis = 0; axis < 2; ++axis) {
        // The fit knows one page, whichever side of the sheet it is on.
        observations.push_back(
            {relabel<VersoMm>(pass.rings[i]), Eigen::Vector2d::Unit(axis), e[axis], 0});
        rows.push_back(2 * found->second + axis);
      }
    }
    if (static_cast<int>(rows.size()) < 2 * kLeastPassRings) continue;
    const auto n = static_cast<Eigen::Index>(rows.size());
    const auto fit = fit_displacements(observations, seen.covariance_mm2(rows, rows),
                                       Eigen::MatrixXd(n, 0), RegistrationModel::affine);
    if (fit) lays.push_back({pass.pass, fit->registration, fit->covariance});
  }
  return lays;
}

}  // namespace versolay
