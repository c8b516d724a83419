#include "registration/sheet_registration.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "registration/checks.h"
#include "registration/page_order.h"
#include "registration/paired_features.h"
#include "registration/print_lay.h"
#include "registration/print_scale.h"

namespace versolay {
namespace {

constexpr std::size_t kLeastHolesToDropOne = 7;
constexpr double kAgreementChi2 = 16.27;  // 0.999 quantile of chi2 with 3 degrees of freedom
constexpr double kForeignMm = 0.5;
constexpr double kAgreementAlwaysMm = 0.03;  // and no reason for a remark below this
constexpr double kLeanSigmas = 2.5;

/// What to fit, and what it gave.
struct Datum {
  PairedFeatures pairs;
  DisplacementFit fit;
  std::string reason;
  Notices warnings;
};

/// With seven holes or more, a hole that is off is left out and named, the worst first.
std::optional<DisplacementFit> fit_without_torn_holes(PairedFeatures& pairs, Notices& warnings) {
  while (true) {
    auto result = pairs.fit();
    if (!result) return std::nullopt;
    std::size_t worst = 0;
    double worst_excess = 0.0;
    std::size_t holes = 0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      if (is_edge(pairs.kind(i))) continue;
      ++holes;
      const double excess =
          pairs.readings()[i].residual_mm.norm() / residual_limits(pairs.kind(i)).single;
      if (excess > worst_excess) {
        worst_excess = excess;
        worst = i;
      }
    }
    if (worst_excess <= 1.0) return result;
    const FeatureReading& hole = pairs.readings()[worst];
    const std::string size = format_fixed(hole.residual_mm.norm(), 3) + " mm";
    if (holes < kLeastHolesToDropOne) {
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

std::optional<Datum> datum_from(PairedFeatures pairs, std::string reason) {
  if (pairs.size() < 2) return std::nullopt;
  Datum datum{std::move(pairs), {}, std::move(reason), {}};
  auto fit = fit_without_torn_holes(datum.pairs, datum.warnings);
  if (!fit) return std::nullopt;
  datum.fit = std::move(*fit);
  return datum;
}

/// Do holes and edges tell the same shift and rotation, within what both claim to know?
bool agree(const DisplacementFit& a, const DisplacementFit& b) {
  const Eigen::Vector3d difference = (a.registration.vec() - b.registration.vec()).head<3>();
  if (difference.head<2>().norm() < kAgreementAlwaysMm && std::abs(difference[2]) < 0.2) {
    return true;
  }
  const Eigen::Matrix3d covariance = (a.covariance + b.covariance).topLeftCorner<3, 3>();
  return difference.dot(covariance.ldlt().solve(difference)) < kAgreementChi2;
}

std::string known_to(const DisplacementFit& fit) {
  return format_fixed(1.96 * std::sqrt(std::max(fit.covariance(0, 0), fit.covariance(1, 1))), 3) +
         " mm";
}

/// Edges and holes are parts of one sheet: where each is sound and they are this far apart, the two
/// pictures are of two sheets, or one page lies upside down.
std::optional<Refusal> check_edges_against_holes(const PairedFeatures& all) {
  const auto holes = datum_from(all.subset(is_hole), "");
  const auto edges = datum_from(all.subset(is_edge), "");
  if (!holes || !edges) return std::nullopt;
  if (edges->pairs.residual_rms_mm(is_edge) > residual_limits(FeatureKind::edge).warn) {
    return std::nullopt;
  }
  const Eigen::Vector2d apart =
      (edges->fit.registration.vec() - holes->fit.registration.vec()).head<2>();
  if (apart.norm() < kForeignMm || agree(holes->fit, edges->fit)) return std::nullopt;
  return Refusal{
      "not_same_sheet",
      fmt::format("The holes and the edges of the paper disagree by {} mm: these two pictures do "
                  "not seem to be the same sheet, or one side was printed upside down.",
                  format_fixed(apart.norm(), 2))};
}

std::optional<Datum> choose(const PairedFeatures& all, DatumChoice choice) {
  if (choice == DatumChoice::holes) return datum_from(all.subset(is_hole), "as asked for");
  if (choice == DatumChoice::edges) return datum_from(all.subset(is_edge), "as asked for");
  auto holes = datum_from(all.subset(is_hole), "no edges were read");
  auto edges = datum_from(all.subset(is_edge), "no holes were read");
  if (!holes) return edges;
  if (!edges) return holes;
  if (!agree(holes->fit, edges->fit)) {
    const Eigen::Vector3d d =
        (edges->fit.registration.vec() - holes->fit.registration.vec()).head<3>();
    holes->reason = "the edges of the paper disagree with the holes and were left out";
    holes->warnings.push_back(
        {"edges_left_out",
         fmt::format("The edges of the paper say {} mm left-right and {} mm up-down other than the "
                     "holes, and were left out. An edge may be rough or in shadow.",
                     format_fixed(d[0], 3), format_fixed(d[1], 3))});
    return holes;
  }
  auto both = datum_from(all, "");
  if (!both) return holes;
  both->reason = fmt::format("holes alone give +-{}, edges alone +-{}, together +-{} (95 %)",
                             known_to(holes->fit), known_to(edges->fit), known_to(both->fit));
  return both;
}

std::string name_of(const PairedFeatures& pairs) {
  const bool punched = pairs.count(FeatureKind::punch) > 0;
  const bool pricked = pairs.count(FeatureKind::prick) > 0;
  const bool edges = pairs.count(FeatureKind::edge) > 0;
  std::string name;
  if (punched || pricked) {
    name = punched && pricked ? "punched and pricked holes"
                              : (punched ? "punched holes" : "pricked holes");
  }
  if (edges) name += name.empty() ? "paper edges" : " and paper edges";
  return name;
}

/// What the scans themselves gave cause to say; each thing once.
void keep_scan_warnings(const std::vector<SideReading>& scans, Notices& warnings) {
  for (const SideReading& scan : scans) {
    for (const Notice& n : scan.warnings) {
      if (std::find(warnings.begin(), warnings.end(), n) == warnings.end()) warnings.push_back(n);
    }
  }
}

void report_lean(const Datum& datum, SheetReading& sheet) {
  if (datum.fit.nuisance.size() != 2) return;
  const double sd = std::sqrt(datum.fit.nuisance_covariance.trace() / 2);
  sheet.lean = PrickLean{datum.fit.nuisance, sd};
  if (datum.fit.nuisance.norm() > kLeanSigmas * sd) {
    sheet.datum_reason += fmt::format("{}the pin leaned by about {} mm, which was averaged out",
                                      sheet.datum_reason.empty() ? "" : "; ",
                                      format_fixed(datum.fit.nuisance.norm(), 2));
  }
}

}  // namespace

Result<SheetReading> register_sheet(const SheetScans& scans, DatumChoice choice) {
  for (const auto* side : {&scans.recto, &scans.verso}) {
    if (const auto refusal = check_same_side_twice(*side)) return *refusal;
  }
  if (scans.recto.empty() || scans.verso.empty()) {
    const bool back_missing = scans.verso.empty();
    return Refusal{"other_side_missing",
                   fmt::format("Only the {} of this sheet was scanned. Scan its {} as well.",
                               back_missing ? "front" : "back", back_missing ? "back" : "front")};
  }
  const PageIdentity& identity = scans.recto.front().identity;
  const TurnAxis axis = turn_axis(identity.turn, identity.paper);
  const CombinedFeatures recto = combine_scans(scans.recto);
  const CombinedFeatures verso = combine_scans(scans.verso);

  SheetReading sheet;
  sheet.sheet = identity.sheet;
  sheet.run = identity.run;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) sheet.files.push_back(scan.scan_name);
  }
  keep_scan_warnings(scans.recto, sheet.warnings);
  keep_scan_warnings(scans.verso, sheet.warnings);
  sheet.recto_lay = print_lay_of(recto);
  sheet.verso_lay = print_lay_of(verso);
  sheet.recto = printed_scale_of(scans.recto, sheet.recto_lay);
  sheet.verso = printed_scale_of(scans.verso, sheet.verso_lay);
  if (const auto refusal = check_printed_scale(sheet, sheet.warnings)) return *refusal;

  const PairedFeatures all = PairedFeatures::by_name(recto, verso, axis);
  const auto datum = choose(all, choice);
  if (!datum) {
    const bool edges_wanted = choice == DatumChoice::edges;
    const std::size_t read = all.subset(edges_wanted ? is_edge : is_hole).size();
    if (read == 0) return why_nothing_was_read(scans.recto, scans.verso, edges_wanted);
    return Refusal{"too_few_features",
                   edges_wanted
                       ? "Too little of the paper's edges can be read on both sides. Scan so that "
                         "all four edges are seen with black card beyond them."
                       : "Too few holes can be read on both sides; two far apart are needed and "
                         "four are better. Check the punch and scan again with black card behind."};
  }
  sheet.warnings.insert(sheet.warnings.end(), datum->warnings.begin(), datum->warnings.end());
  if (const auto refusal = check_residuals(datum->pairs, datum->fit, recto, verso, identity.turn,
                                           axis, sheet.warnings)) {
    return *refusal;
  }
  if (datum->pairs.count(FeatureKind::edge) > 0) {
    if (const auto refusal = check_paper_size(sheet, sheet.warnings)) return *refusal;
  }
  if (const auto refusal = check_edges_against_holes(all)) return *refusal;
  sheet.registration = datum->fit.registration;
  sheet.covariance = datum->fit.covariance;
  sheet.model = datum->fit.model;
  sheet.residual_rms_mm = datum->fit.residual_rms_mm;
  sheet.datum = name_of(datum->pairs);
  sheet.datum_reason = datum->reason;
  sheet.features = datum->pairs.readings();
  report_lean(*datum, sheet);
  return sheet;
}

}  // namespace versolay
