#include "registration/sheet_registration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/numbers.h"
#include "registration/paired_holes.h"

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

const HoleLimits& limits_of(HoleKind kind) {
  return kind == HoleKind::punch ? kPunchLimits : kPrickLimits;
}

/// With seven holes or more, a hole that is off is left out and named, the worst first.
std::optional<DisplacementFit> fit_without_torn_holes(PairedHoles& pairs, Notices& warnings) {
  while (true) {
    auto result = pairs.fit();
    if (!result) return std::nullopt;
    std::size_t worst = 0;
    double worst_excess = 0.0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      const double excess =
          pairs.features()[i].residual_mm.norm() / limits_of(pairs.kind(i)).single;
      if (excess > worst_excess) {
        worst_excess = excess;
        worst = i;
      }
    }
    if (worst_excess <= 1.0) return result;
    const FeatureReading& hole = pairs.features()[worst];
    const std::string size = mm(hole.residual_mm.norm(), 3);
    if (pairs.size() < 7) {
      warnings.push_back({"hole_off", fmt::format("Hole {} disagrees with the others by {}. It may "
                                                  "be torn; check it, or scan both sides again.",
                                                  hole.id, size)});
      return result;
    }
    warnings.push_back(
        {"hole_left_out",
         fmt::format("Hole {} was left out: it disagrees with the others by {}.", hole.id, size)});
    pairs.remove(worst);
  }
}

bool most_are_far_off(const PairedHoles& pairs) {
  const auto far =
      std::count_if(pairs.features().begin(), pairs.features().end(),
                    [](const FeatureReading& f) { return f.residual_mm.norm() > kForeignMm; });
  return 2 * far > static_cast<std::ptrdiff_t>(pairs.size());
}

/// True when the holes fit together if the sheet was turned about the other axis. The discs stand
/// symmetrically, so that holes are found either way; only where they lie inside tells.
bool fits_the_other_turn(const CombinedHoles& recto, const CombinedHoles& verso, TurnAxis axis) {
  const TurnAxis other = axis == TurnAxis::vertical ? TurnAxis::horizontal : TurnAxis::vertical;
  PairedHoles pairs = PairedHoles::by_place(recto, verso, other, 2 * kCaptureRangeMm);
  if (pairs.size() < 3) return false;
  const auto result = pairs.fit();
  return result && result->residual_rms_mm < kPunchLimits.fail;
}

std::string datum_of(const PairedHoles& pairs) {
  if (!pairs.has(HoleKind::prick)) return "punched holes";
  return pairs.has(HoleKind::punch) ? "punched and pricked holes" : "pricked holes";
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
  const CombinedHoles recto = combine_scans(scans.recto);
  const CombinedHoles verso = combine_scans(scans.verso);

  SheetReading sheet;
  sheet.sheet = identity.sheet;
  sheet.run = identity.run;
  names(scans, &sheet.files);
  sheet.recto = mean_scale(scans.recto);
  sheet.verso = mean_scale(scans.verso);
  if (const auto refusal = check_scale(sheet, sheet.warnings)) return *refusal;

  PairedHoles pairs = PairedHoles::by_name(recto, verso, axis);
  if (pairs.size() == 0) return no_holes(scans);
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
  sheet.features = pairs.features();
  return sheet;
}

}  // namespace versolay
