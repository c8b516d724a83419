#include "registration/checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "registration/edge_names.h"
#include "registration/findings.h"

namespace versolay {
namespace {

// Limits without a source are chosen from memory of home printers, punches and scanners. What they
// let pass of bad scans, and what they say of good ones: tests/bench/README.md, "Damaged scans".
constexpr double kForeignMm = 0.3;  // residuals beyond it: not the same sheet
constexpr double kCaptureRangeMm = 3.0;
constexpr std::size_t kEnoughHoles = 6;
constexpr double kSizeWarnMm = 0.2;  // paper 200 to 300 mm long: 1000 to 700 ppm
constexpr double kSizeFailMm = 0.4;
constexpr double kShapeSigmas = 3.0;
constexpr double kMostShearMrad = 1.5;    // the second simulator has prints of 0.5 (one sigma)
constexpr double kMostStretchPpm = 2500;  // paper that grew between the sides: up to 1000
constexpr double kHoleShapeWarnMm = 0.05;

bool most_holes_are_far_off(const PairedFeatures& pairs) {
  int holes = 0;
  int far = 0;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (is_edge(pairs.kind(i))) continue;
    ++holes;
    far += pairs.readings()[i].residual_mm.norm() > kForeignMm ? 1 : 0;
  }
  return holes > 0 && 2 * far > holes;
}

/// Width and height; 0 when not all edges were read on both sides.
Eigen::Vector2d larger_from_the_back(const SheetReading& sheet) {
  if (!sheet.recto_lay || !sheet.verso_lay) return Eigen::Vector2d::Zero();
  return {sheet.verso_lay->paper_width_mm - sheet.recto_lay->paper_width_mm,
          sheet.verso_lay->paper_height_mm - sheet.recto_lay->paper_height_mm};
}

/// "left", "right", "top" or "bottom" of the back: where the sides disagree most.
std::string_view roughest_edge(const PairedFeatures& pairs) {
  std::array<double, 4> squares{};
  std::array<int, 4> places{};
  for (const FeatureReading& f : pairs.readings()) {
    if (!f.normal) continue;
    const std::size_t edge = edge_index(*f.normal);
    squares[edge] += f.residual_mm.squaredNorm();
    ++places[edge];
  }
  std::size_t worst = 0;
  for (std::size_t edge = 1; edge < kEdgeNames.size(); ++edge) {
    if (squares[edge] * std::max(1, places[worst]) > squares[worst] * std::max(1, places[edge])) {
      worst = edge;
    }
  }
  return kEdgeNames[worst];
}

/// True when the holes fit together if the sheet was turned about the other axis. The discs are
/// placed symmetrically, so holes are found either way; only their places inside the discs differ.
bool fits_the_other_turn(const CombinedFeatures& recto, const CombinedFeatures& verso,
                         TurnAxis axis) {
  const TurnAxis other = axis == TurnAxis::vertical ? TurnAxis::horizontal : TurnAxis::vertical;
  PairedFeatures pairs = PairedFeatures::by_place(recto, verso, other, 2 * kCaptureRangeMm);
  if (pairs.size() < 3) return false;
  const auto result = pairs.fit();
  return result && pairs.residual_rms_mm(is_hole) < residual_limits(FeatureKind::prick).fail;
}

std::map<std::string, FeatureKind> holes_seen(const std::vector<SideReading>& side) {
  std::map<std::string, FeatureKind> holes;
  for (const SideReading& scan : side) {
    for (const SideFeature& feature : scan.places.features) {
      if (feature.kind != FeatureKind::edge) holes.emplace(feature.id, feature.kind);
    }
  }
  return holes;
}

bool is_missed_on(const std::vector<SideReading>& side, const std::string& id) {
  return std::any_of(side.begin(), side.end(), [&](const SideReading& scan) {
    return std::any_of(scan.misses.begin(), scan.misses.end(),
                       [&](const SideMiss& miss) { return miss.id == id; });
  });
}

/// Of holes that are seen on one side, and not on the other.
void check_holes_of_one_side(const std::vector<SideReading>& recto,
                             const std::vector<SideReading>& verso,
                             const std::set<FeatureKind>& kinds_in_use, Notices& warnings) {
  const auto front = holes_seen(recto);
  const auto back = holes_seen(verso);
  std::map<std::string, FeatureKind> either = front;
  either.insert(back.begin(), back.end());
  for (const auto& [id, kind] : either) {
    if (front.contains(id) && back.contains(id)) continue;
    if (!kinds_in_use.contains(kind)) continue;
    const bool on_front = front.contains(id);
    const auto& blind = on_front ? verso : recto;
    if (is_missed_on(blind, id)) continue;  // that has been said, with the reason
    warnings.push_back(
        findings::hole_on_one_side(id, Term{on_front ? "front" : "back"}, blind.front().scan_name));
  }
}

}  // namespace

/// From memory: a clean punch is read to 0.01 mm, a burr or a hole that leans moves it by several
/// hundredths; pricks are three times as ragged, edges are cut to some hundredths.
ResidualLimits residual_limits(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::punch:
      return {0.040, 0.080, 0.050};
    case FeatureKind::prick:
      return {0.070, 0.120, 0.100};
    case FeatureKind::edge:
      return {0.060, 0.150, 0.150};
    case FeatureKind::ring:  // no datum
      break;
  }
  return {};
}

bool paper_size_agrees(const SheetReading& sheet) {
  return larger_from_the_back(sheet).cwiseAbs().maxCoeff() <= kSizeWarnMm;
}

std::optional<Refusal> check_paper_size(const SheetReading& sheet, Notices& warnings) {
  if (paper_size_agrees(sheet)) return std::nullopt;
  const Eigen::Vector2d larger = larger_from_the_back(sheet);
  const bool by_width = std::abs(larger.x()) >= std::abs(larger.y());
  const double off = by_width ? larger.x() : larger.y();
  const Finding finding = findings::paper_size_differs(
      Length{std::abs(off)},
      Term{by_width ? (off > 0 ? "wider" : "narrower") : (off > 0 ? "longer" : "shorter")});
  if (std::abs(off) > kSizeFailMm) return finding;
  warnings.push_back(finding);
  return std::nullopt;
}

std::optional<Refusal> check_residuals(const PairedFeatures& pairs, const DisplacementFit& fit,
                                       const CombinedFeatures& recto, const CombinedFeatures& verso,
                                       Turn turn, TurnAxis axis, Notices& warnings) {
  const int holes = pairs.count(FeatureKind::punch) + pairs.count(FeatureKind::prick);
  if (holes >= 2) {
    const double rms = pairs.residual_rms_mm(is_hole);
    const ResidualLimits limits = residual_limits(
        pairs.count(FeatureKind::prick) > 0 ? FeatureKind::prick : FeatureKind::punch);
    if (rms > limits.fail) {
      if (fits_the_other_turn(recto, verso, axis)) {
        const Turn other = turn == Turn::long_edge ? Turn::short_edge : Turn::long_edge;
        return findings::wrong_turn(Term{to_string(turn)}, Term{to_string(other)});
      }
      if (most_holes_are_far_off(pairs)) return findings::not_same_sheet();
      return findings::holes_disagree(Length{rms});
    }
    if (rms > limits.warn) warnings.push_back(findings::holes_disagree(Length{rms}));
  }
  const double edge_rms = pairs.residual_rms_mm(is_edge);
  const ResidualLimits edge_limits = residual_limits(FeatureKind::edge);
  if (edge_rms > edge_limits.fail) {
    return findings::edges_too_far_apart(Term{roughest_edge(pairs)}, Length{edge_rms},
                                         Length{edge_limits.fail});
  }
  if (edge_rms > edge_limits.warn) {
    warnings.push_back(findings::edges_disagree(Term{roughest_edge(pairs)}, Length{edge_rms}));
  }
  const double offset_mm = std::hypot(fit.registration.dx_mm, fit.registration.dy_mm);
  if (offset_mm > kCaptureRangeMm) {
    return findings::offset_too_large(Length{offset_mm}, Length{kCaptureRangeMm});
  }
  return std::nullopt;
}

void check_shape(const DisplacementFit& fit, Notices& warnings) {
  if (fit.model == RegistrationModel::rigid) return;
  const double shear_sd = std::sqrt(fit.covariance(5, 5));
  const double shear = std::abs(fit.registration.shear_mrad);
  const double stretch =
      std::max({std::abs(fit.registration.scale_x_ppm), std::abs(fit.registration.scale_y_ppm),
                std::abs(fit.registration.scale_x_ppm - fit.registration.scale_y_ppm)});
  const bool sheared = shear - kShapeSigmas * shear_sd > kMostShearMrad;
  // Whatever its uncertainty: where a scan lacks lines, that is large as well.
  const bool stretched = stretch > kMostStretchPpm;
  if (sheared) {
    warnings.push_back(findings::sheared(Angle{shear}));
  } else if (stretched) {
    warnings.push_back(findings::stretched(Share{stretch * 1e-6}));
  }
}

void check_hole_shapes(const PairedFeatures& pairs, Notices& warnings) {
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (pairs.kind(i) != FeatureKind::punch) continue;
    const double differs_mm = pairs.shape_difference_mm(i);
    if (differs_mm <= kHoleShapeWarnMm) continue;
    warnings.push_back(
        findings::hole_shapes_differ(pairs.readings()[i].id, Length{2 * differs_mm}));
  }
}

void check_missed_holes(const std::vector<SideReading>& recto,
                        const std::vector<SideReading>& verso, const PairedFeatures& pairs,
                        Notices& warnings) {
  std::set<std::string> used;
  std::set<FeatureKind> kinds_in_use;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (is_edge(pairs.kind(i))) continue;
    used.insert(pairs.readings()[i].id);
    kinds_in_use.insert(pairs.kind(i));
  }
  if (used.size() >= kEnoughHoles) return;
  for (const auto* side : {&recto, &verso}) {
    for (const SideReading& scan : *side) {
      for (const SideMiss& miss : scan.misses) {
        const auto* reason = std::get_if<HoleMiss>(&miss.miss);
        if (reason == nullptr || *reason == HoleMiss::outside) continue;
        if (!kinds_in_use.contains(miss.kind) || !used.insert(miss.id).second) continue;
        warnings.push_back(
            findings::hole_unreadable(miss.id, scan.scan_name, Term{to_string(*reason)}));
      }
    }
  }
  check_holes_of_one_side(recto, verso, kinds_in_use, warnings);
}

Refusal why_nothing_was_read(const std::vector<SideReading>& recto,
                             const std::vector<SideReading>& verso, bool edges_wanted) {
  std::set<HoleMiss> hole_misses;
  std::set<EdgeMiss> edge_misses;
  for (const auto* side : {&recto, &verso}) {
    for (const SideReading& scan : *side) {
      const auto& other_side = side == &recto ? verso : recto;
      for (const SideMiss& miss : scan.misses) {
        const auto* hole = std::get_if<HoleMiss>(&miss.miss);
        // Light falls through a hole both ways; dirt is on one side.
        if (hole != nullptr && is_missed_on(other_side, miss.id)) hole_misses.insert(*hole);
        if (const auto* edge = std::get_if<EdgeMiss>(&miss.miss)) edge_misses.insert(*edge);
      }
    }
  }
  if (edges_wanted) {
    return edge_misses.contains(EdgeMiss::poor_contrast) ? findings::edge_contrast()
                                                         : findings::edges_not_shown();
  }
  if (hole_misses.contains(HoleMiss::poor_contrast) ||
      hole_misses.contains(HoleMiss::uneven_light)) {
    return findings::hole_contrast();
  }
  if (hole_misses.contains(HoleMiss::outside) && hole_misses.size() == 1) {
    return findings::holes_cut_off();
  }
  if (hole_misses.contains(HoleMiss::cut_off)) return findings::holes_outside();
  if (!hole_misses.empty()) return findings::holes_unreadable();
  if (edge_misses.contains(EdgeMiss::poor_contrast)) return findings::white_background();
  return findings::no_holes();
}

}  // namespace versolay
