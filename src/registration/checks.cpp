#include "registration/checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <set>

#include "core/numbers.h"
#include "core/translation.h"
#include "measure/miss_words.h"

namespace versolay {
namespace {

constexpr double kForeignMm = 0.3;  // residuals beyond it: not the same sheet
constexpr double kCaptureRangeMm = 3.0;
constexpr std::size_t kEnoughHoles = 6;
constexpr double kSizeWarnMm = 0.2;
constexpr double kSizeFailMm = 0.4;
constexpr double kShapeSigmas = 3.0;
constexpr double kMostShearMrad = 1.5;    // the second simulator has prints of 0.5 (one sigma)
constexpr double kMostStretchPpm = 2500;  // paper that grew between the sides: up to 1000
constexpr double kHoleShapeWarnMm = 0.05;

std::string mm(double value, int decimals) { return format_fixed(value, decimals) + " mm"; }

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
  static constexpr std::array<const char*, 4> kNames = {tr_noop("left"), tr_noop("right"),
                                                        tr_noop("top"), tr_noop("bottom")};
  std::array<double, 4> squares{};
  std::array<int, 4> places{};
  for (const FeatureReading& f : pairs.readings()) {
    if (!f.normal) continue;
    const bool across = std::abs(f.normal->x()) > 0.5;
    const double outward = across ? f.normal->x() : f.normal->y();
    const std::size_t edge = (across ? 0u : 2u) + (outward < 0 ? 0u : 1u);
    squares[edge] += f.residual_mm.squaredNorm();
    ++places[edge];
  }
  std::size_t worst = 0;
  for (std::size_t edge = 1; edge < kNames.size(); ++edge) {
    if (squares[edge] * std::max(1, places[worst]) > squares[worst] * std::max(1, places[edge])) {
      worst = edge;
    }
  }
  return tr(kNames[worst]);
}

/// True when the holes fit together if the sheet was turned about the other axis. The discs stand
/// symmetrically, so that holes are found either way; only where they lie inside tells.
bool fits_the_other_turn(const CombinedFeatures& recto, const CombinedFeatures& verso,
                         TurnAxis axis) {
  const TurnAxis other = axis == TurnAxis::vertical ? TurnAxis::horizontal : TurnAxis::vertical;
  PairedFeatures pairs = PairedFeatures::by_place(recto, verso, other, 2 * kCaptureRangeMm);
  if (pairs.size() < 3) return false;
  const auto result = pairs.fit();
  return result && pairs.residual_rms_mm(is_hole) < residual_limits(FeatureKind::prick).fail;
}

std::set<std::string> holes_seen(const std::vector<SideReading>& side) {
  std::set<std::string> ids;
  for (const SideReading& scan : side) {
    for (const SideFeature& feature : scan.places.features) {
      if (feature.kind != FeatureKind::edge) ids.insert(feature.id);
    }
  }
  return ids;
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
                             const std::set<char>& kinds_in_use, Notices& warnings) {
  const std::set<std::string> front = holes_seen(recto);
  const std::set<std::string> back = holes_seen(verso);
  std::vector<std::string> one_side;
  std::set_symmetric_difference(front.begin(), front.end(), back.begin(), back.end(),
                                std::back_inserter(one_side));
  for (const std::string& id : one_side) {
    if (!kinds_in_use.contains(id.front())) continue;
    const bool on_front = front.contains(id);
    const auto& blind = on_front ? verso : recto;
    if (is_missed_on(blind, id)) continue;  // that has been said, with the reason
    warnings.push_back(
        {"hole_on_one_side",
         tr("Hole {} is seen on the {} and not on {}, and is not used. Clear it, lay "
            "black card behind the sheet, and scan that side again.",
            id, on_front ? tr("front") : tr("back"), blind.front().scan_name)});
  }
}

}  // namespace

ResidualLimits residual_limits(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::punch:
      return {0.040, 0.080, 0.050};
    case FeatureKind::prick:
      return {0.070, 0.120, 0.100};
    case FeatureKind::edge:
      return {0.060, 0.150, 0.150};
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
  const std::string message =
      tr("The sheet looks {} {} from the back. An edge was not seen properly: press the sheet "
         "flat, lay black card behind it that reaches well beyond all edges, and scan again.",
         mm(std::abs(off), 2),
         by_width ? (off > 0 ? tr("wider") : tr("narrower"))
                  : (off > 0 ? tr("longer") : tr("shorter")));
  if (std::abs(off) > kSizeFailMm) return Refusal{"paper_size_differs", message};
  warnings.push_back({"paper_size_differs", message});
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
        return Refusal{
            "wrong_turn",
            tr("This sheet was turned about the other edge: the target was made for a {} turn. "
               "Print it again and turn it as the target says, or make a target with --turn {}.",
               to_string(turn),
               to_string(turn == Turn::long_edge ? Turn::short_edge : Turn::long_edge))};
      }
      if (most_holes_are_far_off(pairs)) {
        return Refusal{"not_same_sheet", tr("These two pictures do not seem to be the same sheet, "
                                            "or one side was printed upside down.")};
      }
      return Refusal{"holes_disagree",
                     tr("The holes disagree with each other by {}. A hole may be torn, or the "
                        "sheet moved during the scan. Press it flat and scan again.",
                        mm(rms, 2))};
    }
    if (rms > limits.warn) {
      warnings.push_back({"holes_disagree", tr("The holes disagree with each other by {}. A hole "
                                               "may be torn, or the sheet moved during the scan.",
                                               mm(rms, 3))});
    }
  }
  const double edge_rms = pairs.residual_rms_mm(is_edge);
  const ResidualLimits edge_limits = residual_limits(FeatureKind::edge);
  if (edge_rms > edge_limits.warn) {
    const std::string message =
        tr("The {} edge, seen from the back, is rough, folded or in shadow: the two sides disagree "
           "there by {}.",
           roughest_edge(pairs), mm(edge_rms, edge_rms > edge_limits.fail ? 2 : 3));
    if (edge_rms > edge_limits.fail) {
      return Refusal{"edges_disagree", tr("{} Or these are two sheets.", message)};
    }
    warnings.push_back({"edges_disagree", message});
  }
  if (std::hypot(fit.registration.dx_mm, fit.registration.dy_mm) > kCaptureRangeMm) {
    return Refusal{"offset_too_large", tr("The back is off by more than 3 mm. Check the page "
                                          "scaling, and that the sheet was turned the right way.")};
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
  if (!sheared && !stretched) return;
  warnings.push_back(
      {"shape_implausible",
       tr("The back looks {} against the front, more than any printer does: an edge or a hole was "
          "seen wrongly on one side, or a scan is warped. Press the sheet flat and scan both sides "
          "again.",
          sheared ? tr("sheared by {} mrad", format_fixed(shear, 2))
                  : tr("stretched by {} %", format_fixed(stretch * 1e-4, 2)))});
}

void check_hole_shapes(const PairedFeatures& pairs, Notices& warnings) {
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (pairs.kind(i) != FeatureKind::punch) continue;
    const double differs_mm = pairs.shape_difference_mm(i);
    if (differs_mm <= kHoleShapeWarnMm) continue;
    warnings.push_back(
        {"hole_shapes_differ",
         tr("Hole {} does not look the same from both sides: they differ by {} mm. It may be torn, "
            "half covered or in shadow on one of them. Clear it, and scan both sides again.",
            pairs.readings()[i].id, format_fixed(2 * differs_mm, 2))});
  }
}

void check_missed_holes(const std::vector<SideReading>& recto,
                        const std::vector<SideReading>& verso, const PairedFeatures& pairs,
                        Notices& warnings) {
  std::set<std::string> used;
  std::set<char> kinds_in_use;  // by the first letter of their names: H punched, P pricked
  for (const FeatureReading& f : pairs.readings()) {
    if (f.normal) continue;
    used.insert(f.id);
    kinds_in_use.insert(f.id.front());
  }
  if (used.size() >= kEnoughHoles) return;
  for (const auto* side : {&recto, &verso}) {
    for (const SideReading& scan : *side) {
      for (const SideMiss& miss : scan.misses) {
        const auto* reason = std::get_if<HoleMiss>(&miss.miss);
        if (reason == nullptr || *reason == HoleMiss::outside) continue;
        if (!kinds_in_use.contains(miss.id.front()) || !used.insert(miss.id).second) continue;
        warnings.push_back({"hole_unreadable", tr("Hole {} could not be read on {}: {}.", miss.id,
                                                  scan.scan_name, words_for(*reason))});
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
    if (edge_misses.contains(EdgeMiss::poor_contrast)) {
      return {"edge_contrast",
              tr("The edges of the paper cannot be told from the background. Put black card behind "
                 "the sheet that reaches well beyond all its edges.")};
    }
    return {
        "edges_cut_off",
        tr("The edges of the paper are not all in the pictures. Scan each side twice, shifted by "
           "15 mm, so that every edge is seen with some black card beyond it; or punch holes.")};
  }
  if (hole_misses.contains(HoleMiss::poor_contrast) ||
      hole_misses.contains(HoleMiss::uneven_light)) {
    return {"hole_contrast", tr("The holes are too pale to be read. Put black card behind the "
                                "sheet: the white lid hides the edge of a hole.")};
  }
  if (hole_misses.contains(HoleMiss::outside) && hole_misses.size() == 1) {
    return {"holes_cut_off",
            tr("The places of the holes are not in the pictures. Scan the whole sheet; one that is "
               "larger than the scanner's glass, or as long, in two pictures that overlap.")};
  }
  if (hole_misses.contains(HoleMiss::cut_off)) {
    return {"holes_outside",
            tr("The holes lie across the dashed circles, not inside them. Print a fresh sheet and "
               "centre the punch on the small arrow in the middle of the edge.")};
  }
  if (!hole_misses.empty()) {
    return {"holes_unreadable",
            tr("The holes cannot be read: they are torn, covered or of an unusual size. Use an "
               "ordinary 6 mm office punch on a fresh sheet, and scan with black card behind.")};
  }
  if (edge_misses.contains(EdgeMiss::poor_contrast)) {
    return {"white_background", tr("What lies behind the sheet is as light as the paper, so that "
                                   "holes and edges cannot be seen. Put black card behind the "
                                   "sheet, reaching beyond all its edges, and scan again.")};
  }
  return {"no_holes", tr("No holes were found. Punch the sheet once on each short edge, inside the "
                         "dashed circles, and scan both sides with black card behind.")};
}

}  // namespace versolay
