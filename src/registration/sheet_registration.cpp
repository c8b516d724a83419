#include "registration/sheet_registration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/numbers.h"
#include "registration/displacement_fit.h"

namespace versolay {
namespace {

constexpr double kForeignMm = 0.3;  // residuals beyond it: not the same sheet
constexpr double kCaptureRangeMm = 3.0;
constexpr double kScaleWarn = 0.005;
constexpr double kScaleFail = 0.02;

/// Limits of the rms of the hole residuals, and of a single hole, mm.
struct HoleLimits {
  double warn;
  double fail;
  double single;
};
constexpr HoleLimits kPunchLimits{0.040, 0.080, 0.050};
constexpr HoleLimits kPrickLimits{0.070, 0.120, 0.100};

std::string mm(double value, int decimals = 2) { return format_fixed(value, decimals) + " mm"; }

/// One hole on one side, all scans of that side combined by inverse variance.
struct CombinedHole {
  HoleKind kind = HoleKind::punch;
  Eigen::Vector2d at_mm{0.0, 0.0};
  double weight = 0.0;  // 1 / variance
};

std::map<std::string, CombinedHole> combine(const std::vector<SideReading>& scans) {
  std::map<std::string, CombinedHole> holes;
  for (const SideReading& scan : scans) {
    for (const SideHole& hole : scan.holes) {
      CombinedHole& sum = holes[hole.id];
      sum.kind = hole.kind;
      const double weight = 1.0 / (hole.sd_mm * hole.sd_mm);
      sum.at_mm += weight * hole.hole.centre.vec();
      sum.weight += weight;
    }
  }
  for (auto& [id, hole] : holes) hole.at_mm /= hole.weight;
  return holes;
}

struct PairedHole {
  HoleKind kind;
  FeatureReading feature;
};

std::vector<PairedHole> pair_holes(const std::map<std::string, CombinedHole>& recto,
                                   const std::map<std::string, CombinedHole>& verso,
                                   TurnAxis axis) {
  std::vector<PairedHole> pairs;
  for (const auto& [id, on_recto] : recto) {
    const auto on_verso = verso.find(id);
    if (on_verso == verso.end()) continue;
    FeatureReading feature;
    feature.id = id;
    feature.at = Point<VersoMm>::from(on_verso->second.at_mm);
    feature.e_mm =
        verso_from_recto(axis)(Point<RectoMm>::from(on_recto.at_mm)).vec() - feature.at.vec();
    feature.sd_mm = std::sqrt(1.0 / on_recto.weight + 1.0 / on_verso->second.weight);
    pairs.push_back({on_recto.kind, feature});
  }
  return pairs;
}

std::optional<DisplacementFit> fit(const std::vector<PairedHole>& pairs) {
  std::vector<DisplacementObservation> observations;
  for (const PairedHole& pair : pairs) {
    const FeatureReading& f = pair.feature;
    observations.push_back({f.at, {1.0, 0.0}, f.e_mm.x(), f.sd_mm});
    observations.push_back({f.at, {0.0, 1.0}, f.e_mm.y(), f.sd_mm});
  }
  return fit_displacements(observations, model_for_features(static_cast<int>(pairs.size())));
}

void set_residuals(std::vector<PairedHole>& pairs, const DisplacementFit& fit) {
  for (PairedHole& pair : pairs) {
    pair.feature.residual_mm =
        pair.feature.e_mm - fit.registration.displacement_mm(pair.feature.at);
  }
}

const HoleLimits& limits_of(HoleKind kind) {
  return kind == HoleKind::punch ? kPunchLimits : kPrickLimits;
}

/// With six holes or more, a hole that is off is left out and named, the worst first.
std::optional<DisplacementFit> fit_without_torn_holes(std::vector<PairedHole>& pairs,
                                                      Notices& warnings) {
  while (true) {
    auto result = fit(pairs);
    if (!result) return std::nullopt;
    set_residuals(pairs, *result);
    const auto excess = [](const PairedHole& pair) {
      return pair.feature.residual_mm.norm() / limits_of(pair.kind).single;
    };
    const auto worst =
        std::max_element(pairs.begin(), pairs.end(),
                         [&](const auto& a, const auto& b) { return excess(a) < excess(b); });
    if (excess(*worst) <= 1.0) return result;
    const std::string size = mm(worst->feature.residual_mm.norm(), 3);
    if (pairs.size() < 7) {
      warnings.push_back({"hole_off", fmt::format("Hole {} disagrees with the others by {}. It may "
                                                  "be torn; check it, or scan both sides again.",
                                                  worst->feature.id, size)});
      return result;
    }
    warnings.push_back(
        {"hole_left_out", fmt::format("Hole {} was left out: it disagrees with the others by {}.",
                                      worst->feature.id, size)});
    pairs.erase(worst);
  }
}

bool most_are_far_off(const std::vector<PairedHole>& pairs) {
  const auto far = std::count_if(pairs.begin(), pairs.end(), [](const PairedHole& pair) {
    return pair.feature.residual_mm.norm() > kForeignMm;
  });
  return 2 * far > static_cast<std::ptrdiff_t>(pairs.size());
}

/// True when the holes fit together if the sheet was turned about the other axis. The discs stand
/// symmetrically, so that holes are found either way; only where they lie inside tells.
bool fits_the_other_turn(const std::map<std::string, CombinedHole>& recto,
                         const std::map<std::string, CombinedHole>& verso, TurnAxis axis) {
  // Seen under the wrong mirror, every hole shows up in the disc half a turn away.
  std::vector<PairedHole> pairs;
  const TurnAxis other = axis == TurnAxis::vertical ? TurnAxis::horizontal : TurnAxis::vertical;
  for (const auto& [id, on_recto] : recto) {
    const Eigen::Vector2d expected =
        verso_from_recto(other)(Point<RectoMm>::from(on_recto.at_mm)).vec();
    for (const auto& [verso_id, on_verso] : verso) {
      if ((on_verso.at_mm - expected).norm() > 2 * kCaptureRangeMm) continue;
      FeatureReading feature;
      feature.id = id;
      feature.at = Point<VersoMm>::from(on_verso.at_mm);
      feature.e_mm = expected - on_verso.at_mm;
      feature.sd_mm = std::sqrt(1.0 / on_recto.weight + 1.0 / on_verso.weight);
      pairs.push_back({on_recto.kind, feature});
    }
  }
  if (pairs.size() < 3) return false;
  const auto result = fit(pairs);
  return result && result->residual_rms_mm < kPunchLimits.fail;
}

std::string datum_of(const std::vector<PairedHole>& pairs) {
  const bool punched = std::any_of(pairs.begin(), pairs.end(),
                                   [](const PairedHole& p) { return p.kind == HoleKind::punch; });
  const bool pricked = std::any_of(pairs.begin(), pairs.end(),
                                   [](const PairedHole& p) { return p.kind == HoleKind::prick; });
  if (punched && pricked) return "punched and pricked holes";
  return punched ? "punched holes" : "pricked holes";
}

PrintedScale mean_scale(const std::vector<SideReading>& scans) {
  double x = 0.0;
  double y = 0.0;
  int n = 0;
  for (const SideReading& scan : scans) {
    if (!scan.printed_scale.x || !scan.printed_scale.y) continue;
    x += *scan.printed_scale.x;
    y += *scan.printed_scale.y;
    ++n;
  }
  if (n == 0) return {};
  return {x / n, y / n};
}

/// nullopt: the scale is right. A notice or a refusal otherwise.
std::optional<Refusal> check_scale(const SheetReading& sheet, Notices& warnings) {
  for (const auto& [side, scale] :
       {std::pair{Side::recto, sheet.recto}, std::pair{Side::verso, sheet.verso}}) {
    for (const auto& value : {scale.x, scale.y}) {
      if (!value) continue;
      const double off = std::abs(*value - 1.0);
      const std::string message = fmt::format(
          "The {} was printed at {} % by the scanner's resolution. Turn off "
          "fit-to-page and borderless in the print dialogue and print at actual size.",
          side == Side::recto ? "front" : "back", format_fixed(*value * 100, 1));
      if (off > kScaleFail) return Refusal{"printed_scale", message};
      if (off > kScaleWarn) {
        warnings.push_back({"printed_scale", message});
        break;
      }
    }
  }
  return std::nullopt;
}

Refusal no_holes(const SheetScans& scans) {
  std::set<HoleMiss> misses;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) {
      for (const SideHoleMiss& miss : scan.misses) misses.insert(miss.miss);
    }
  }
  if (misses.contains(HoleMiss::poor_contrast)) {
    return {"hole_contrast",
            "The holes are too pale to be read. Put black card behind the sheet: the white lid "
            "hides the edge of a hole."};
  }
  if (misses.contains(HoleMiss::cut_off)) {
    return {"holes_outside",
            "The holes lie across the dashed circles, not inside them. Print a fresh sheet and "
            "centre the punch on the small arrow in the middle of the edge."};
  }
  if (!misses.empty()) {
    return {"holes_unreadable",
            "The holes cannot be read: they are torn, covered or of an unusual size. Use an "
            "ordinary 6 mm office punch on a fresh sheet, and scan with black card behind."};
  }
  return {"no_holes",
          "No holes were found. Punch the sheet once on each short edge, inside the dashed "
          "circles, and scan both sides with black card behind."};
}

std::string names(const SheetScans& scans, std::vector<std::string>* list = nullptr) {
  std::string joined;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) {
      joined += (joined.empty() ? "" : ", ") + scan.scan_name;
      if (list) list->push_back(scan.scan_name);
    }
  }
  return joined;
}

}  // namespace

Result<SheetReading> register_sheet(const SheetScans& scans) {
  if (scans.recto.empty() || scans.verso.empty()) {
    const bool back_missing = scans.verso.empty();
    return Refusal{"other_side_missing",
                   fmt::format("Only the {} of this sheet was scanned. Scan its {} as well.",
                               back_missing ? "front" : "back", back_missing ? "back" : "front")};
  }
  const PageIdentity& identity = scans.recto.front().identity;
  const TurnAxis axis = turn_axis(identity.turn, identity.paper);
  const auto recto = combine(scans.recto);
  const auto verso = combine(scans.verso);

  SheetReading sheet;
  sheet.sheet = identity.sheet;
  sheet.run = identity.run;
  names(scans, &sheet.files);
  sheet.recto = mean_scale(scans.recto);
  sheet.verso = mean_scale(scans.verso);
  if (const auto refusal = check_scale(sheet, sheet.warnings)) return *refusal;

  auto pairs = pair_holes(recto, verso, axis);
  if (pairs.empty()) return no_holes(scans);
  if (pairs.size() < 2) {
    return Refusal{"too_few_holes",
                   "Only one hole can be read on both sides; two are needed and four are better. "
                   "Check the punch and scan again with black card behind."};
  }
  const auto fitted = fit_without_torn_holes(pairs, sheet.warnings);
  if (!fitted) {
    return Refusal{"too_few_holes",
                   "The holes lie too close together to show how the back lies. Punch the sheet "
                   "on both short edges."};
  }
  sheet.datum = datum_of(pairs);
  const HoleLimits& limits =
      limits_of(sheet.datum == "punched holes" ? HoleKind::punch : HoleKind::prick);
  if (pairs.size() >= 3 && fitted->residual_rms_mm > limits.fail) {
    if (fits_the_other_turn(recto, verso, axis)) {
      return Refusal{"wrong_turn",
                     fmt::format("This sheet was turned about the other edge: the target was made "
                                 "for a {} turn. Print it again and turn it as the target says, or "
                                 "make a target with --turn {}.",
                                 to_string(identity.turn),
                                 to_string(identity.turn == Turn::long_edge ? Turn::short_edge
                                                                            : Turn::long_edge))};
    }
    if (most_are_far_off(pairs)) {
      return Refusal{"not_same_sheet",
                     "These two pictures do not seem to be the same sheet, or one side was "
                     "printed upside down."};
    }
    return Refusal{"holes_disagree",
                   fmt::format("The holes disagree with each other by {}. A hole may be torn, or "
                               "the sheet moved during the scan. Press it flat and scan again.",
                               mm(fitted->residual_rms_mm))};
  }
  if (pairs.size() >= 3 && fitted->residual_rms_mm > limits.warn) {
    sheet.warnings.push_back(
        {"holes_disagree", fmt::format("The holes disagree with each other by {}. A hole may be "
                                       "torn, or the sheet moved during the scan.",
                                       mm(fitted->residual_rms_mm, 3))});
  }
  if (std::hypot(fitted->registration.dx_mm, fitted->registration.dy_mm) > kCaptureRangeMm) {
    return Refusal{"offset_too_large",
                   "The back is off by more than 3 mm. Check the page scaling, and that the sheet "
                   "was turned the right way."};
  }
  sheet.registration = fitted->registration;
  sheet.covariance = fitted->covariance;
  sheet.model = fitted->model;
  sheet.residual_rms_mm = fitted->residual_rms_mm;
  for (const PairedHole& pair : pairs) sheet.features.push_back(pair.feature);
  return sheet;
}

}  // namespace versolay
