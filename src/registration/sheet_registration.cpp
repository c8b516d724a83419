#include "registration/sheet_registration.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/numbers.h"
#include "core/translation.h"
#include "measure/median.h"
#include "registration/checks.h"
#include "registration/page_order.h"
#include "registration/paired_features.h"
#include "registration/print_lay.h"
#include "registration/print_scale.h"
#include "registration/repeats.h"
#include "registration/scan_checks.h"

namespace versolay {
namespace {

constexpr std::size_t kLeastHolesToDropOne = 6;
constexpr double kAgreementChi2 = 16.27;  // 0.999 quantile of chi2 with 3 degrees of freedom
constexpr double kForeignPartMm = 0.5;
constexpr double kAgreementAlwaysMm = 0.03;  // and no reason for a remark below this
constexpr double kLeanSigmas = 2.5;
constexpr double kDoubtfulShare = 0.1;  // of the places along the edges

/// What to fit, and what it gave.
struct Datum {
  PairedFeatures pairs;
  DisplacementFit fit;
  std::string reason;
  Notices warnings;
  std::optional<Refusal> contradiction = std::nullopt;  // of holes and edges
};

std::string places_left_out(std::size_t dropped, double worst_mm) {
  return trn("{} place along the edges that is off by up to {} mm was left out",
             "{} places along the edges that are off by up to {} mm were left out", dropped,
             format_fixed(worst_mm, 2));
}

/// Six robust standard deviations of this sheet's own places, within bounds: where most places
/// agree to 0.01 mm, one that is off by 0.1 mm is a nick or a shadow.
double edge_limit_mm(const PairedFeatures& pairs) {
  constexpr double kLeastMm = 0.05;
  constexpr double kRobustSds = 6.0;
  std::vector<double> off_mm;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (is_edge(pairs.kind(i))) off_mm.push_back(pairs.readings()[i].residual_mm.norm());
  }
  const double most_mm = residual_limits(FeatureKind::edge).single;
  if (off_mm.empty()) return most_mm;
  return std::clamp(kRobustSds * robust_sd(std::move(off_mm)), kLeastMm, most_mm);
}

/// Leaves out places of the edge that are off (a nick, a fold, a slip of paper), the worst first,
/// while most places remain.
void leave_out_rough_edges(PairedFeatures& pairs, std::string& reason, Notices& warnings) {
  const auto places = static_cast<std::size_t>(pairs.count(FeatureKind::edge));
  std::size_t dropped = 0;
  double worst_dropped_mm = 0.0;
  while (4 * (dropped + 1) <= places && pairs.fit()) {
    std::size_t worst = pairs.size();
    double worst_mm = edge_limit_mm(pairs);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      const double off_mm = pairs.readings()[i].residual_mm.norm();
      if (!is_edge(pairs.kind(i)) || off_mm <= worst_mm) continue;
      worst = i;
      worst_mm = off_mm;
    }
    if (worst == pairs.size()) break;
    pairs.remove(worst);
    ++dropped;
    worst_dropped_mm = std::max(worst_dropped_mm, worst_mm);
  }
  if (dropped == 0) return;
  reason += (reason.empty() ? "" : "; ") + places_left_out(dropped, worst_dropped_mm);
  const bool by_edges_alone = pairs.count(FeatureKind::edge) == static_cast<int>(pairs.size());
  if (by_edges_alone &&
      kDoubtfulShare * static_cast<double>(places) <= static_cast<double>(dropped)) {
    warnings.push_back(
        {"edge_places_left_out",
         tr("{}: an edge is nicked, curled or in shadow on one side. Press the sheet flat, lay "
            "black card behind it, and scan both sides again.",
            places_left_out(dropped, worst_dropped_mm))});
  }
}

/// With six holes or more, a hole that is off is left out and named, the worst first.
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
      warnings.push_back({"hole_off", tr("Hole {} disagrees with the others by {}. It may be torn; "
                                         "check it, or scan both sides again.",
                                         hole.id, size)});
      return result;
    }
    warnings.push_back(
        {"hole_left_out",
         tr("Hole {} was left out: it disagrees with the others by {}.", hole.id, size)});
    pairs.remove(worst);
  }
}

std::optional<Datum> datum_from(PairedFeatures pairs, std::string reason) {
  if (pairs.size() < 2) return std::nullopt;
  Notices warnings;
  leave_out_rough_edges(pairs, reason, warnings);
  Datum datum{std::move(pairs), {}, std::move(reason), std::move(warnings)};
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

/// What is stated then covers both: the true value may be the one or the other.
void cover_both(const Eigen::Vector3d& difference, DisplacementFit& fit) {
  fit.covariance.topLeftCorner<3, 3>() += difference * difference.transpose();
}

/// Holes alone, because the edges are not to be trusted; says so.
Datum without_edges(Datum holes, const std::string& reason, const std::string& message) {
  holes.reason = reason;
  holes.warnings.push_back({"edges_left_out", message});
  return holes;
}

/// Holes and edges were both read.
Datum from_both(const PairedFeatures& all, Datum holes, const Datum& edges,
                bool paper_size_agrees) {
  const double rough_mm = edges.pairs.residual_rms_mm(is_edge);
  if (rough_mm > residual_limits(FeatureKind::edge).fail) {
    return without_edges(std::move(holes), tr("the edges of the paper are rough and were left out"),
                         tr("The edges of the paper, seen from both sides, disagree by {} mm and "
                            "were left out. They may be rough, folded, covered or in shadow.",
                            format_fixed(rough_mm, 2)));
  }
  if (!paper_size_agrees) {
    return without_edges(std::move(holes), tr("the edges of the paper were not seen properly"),
                         tr("The sheet looks larger from one side than from the other, so its "
                            "edges were left out. It may not have lain flat on the glass."));
  }
  if (agree(holes.fit, edges.fit)) {
    auto both = datum_from(all, "");
    if (!both) return holes;
    both->reason = tr("holes alone give +-{}, edges alone +-{}, together +-{} (95 %){}{}",
                      known_to(holes.fit), known_to(edges.fit), known_to(both->fit),
                      both->reason.empty() ? "" : "; ", both->reason);
    return std::move(*both);
  }
  const Eigen::Vector3d difference =
      (edges.fit.registration.vec() - holes.fit.registration.vec()).head<3>();
  const Eigen::Vector2d d = difference.head<2>();
  if (d.norm() > kForeignPartMm) {  // parts of one sheet cannot be this far apart
    holes.contradiction =
        Refusal{"holes_against_edges",
                tr("The holes and the edges of the paper disagree by {} mm: either the sheet did "
                   "not lie flat on the glass, or these two pictures are not of the same sheet. "
                   "Press it flat and scan both sides again.",
                   format_fixed(d.norm(), 2))};
    return holes;
  }
  holes.reason = tr("the edges of the paper disagree with the holes; the holes are followed");
  cover_both(difference, holes.fit);
  holes.warnings.push_back(
      {"datums_disagree",
       tr("The holes and the edges of the paper disagree by {} mm left-right, {} mm up-down and "
          "{} mrad, and nothing tells which is right. The holes are followed, and the stated "
          "uncertainty covers both. Press the sheet flat and scan both sides again; leave the "
          "sheet out if that does not help.",
          format_fixed(std::abs(d[0]), 3), format_fixed(std::abs(d[1]), 3),
          format_fixed(std::abs(difference[2]), 2))});
  return holes;
}

/// @return nullopt when too little was read.
std::optional<Datum> choose(const PairedFeatures& all, DatumChoice choice, bool paper_size_agrees) {
  std::string reason =
      choice == DatumChoice::automatic ? tr("no edges were read") : tr("as asked for");
  auto holes = datum_from(all.subset(is_hole), reason);
  if (choice == DatumChoice::holes) return holes;
  reason = choice == DatumChoice::automatic ? tr("no holes were read") : tr("as asked for");
  auto edges = datum_from(all.subset(is_edge), reason);
  if (choice == DatumChoice::edges || !holes) return edges;
  if (!edges) return holes;
  return from_both(all, std::move(*holes), *edges, paper_size_agrees);
}

std::string name_of(const PairedFeatures& pairs) {
  const bool punched = pairs.count(FeatureKind::punch) > 0;
  const bool pricked = pairs.count(FeatureKind::prick) > 0;
  const bool edges = pairs.count(FeatureKind::edge) > 0;
  std::string name;
  if (punched || pricked) {
    name = punched && pricked ? tr_noop("punched and pricked holes")
                              : (punched ? tr_noop("punched holes") : tr_noop("pricked holes"));
  }
  if (edges) name += name.empty() ? tr_noop("paper edges") : tr_noop(" and paper edges");
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
    sheet.datum_reason +=
        tr("{}the pin leaned by about {} mm, which was averaged out",
           sheet.datum_reason.empty() ? "" : "; ", format_fixed(datum.fit.nuisance.norm(), 2));
  }
}

bool any_photograph(const SheetScans& scans) {
  const auto is_photograph = [](const SideReading& scan) { return scan.camera.has_value(); };
  return std::any_of(scans.recto.begin(), scans.recto.end(), is_photograph) ||
         std::any_of(scans.verso.begin(), scans.verso.end(), is_photograph);
}

std::optional<Refusal> check_both_sides_shown(const SheetScans& scans) {
  for (const auto* side : {&scans.recto, &scans.verso}) {
    if (const auto refusal = check_same_side_twice(*side)) return refusal;
  }
  if (scans.recto.empty() || scans.verso.empty()) {
    const bool back_missing = scans.verso.empty();
    return Refusal{
        "other_side_missing",
        tr("Only the {} of this sheet was scanned. Scan its {} as well.",
           back_missing ? tr("front") : tr("back"), back_missing ? tr("back") : tr("front"))};
  }
  for (const auto* side : {&scans.recto, &scans.verso}) {
    if (const auto refusal = check_whole_side_shown(*side)) return refusal;
  }
  return std::nullopt;
}

/// The features of both sides, each joined from all its scans.
struct BothSides {
  CombinedFeatures recto;
  CombinedFeatures verso;
  TurnAxis axis;
};

/// What is known before any hole or edge is compared.
SheetReading begun_reading(const SheetScans& scans, const BothSides& sides) {
  const SideReading& first = scans.recto.front();
  SheetReading sheet;
  sheet.sheet = first.identity.sheet;
  sheet.run = first.identity.run;
  sheet.correction = first.correction;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) sheet.files.push_back(scan.scan_name);
    keep_scan_warnings(*side, sheet.warnings);
  }
  sheet.photographed = any_photograph(scans);
  sheet.recto_lay = print_lay_of(sides.recto);
  sheet.verso_lay = print_lay_of(sides.verso);
  sheet.recto = printed_scale_of(scans.recto, sheet.recto_lay);
  sheet.verso = printed_scale_of(scans.verso, sheet.verso_lay);
  return sheet;
}

/// Where the sheet is read by its edges, all of them must be in the pictures.
std::optional<Refusal> check_edges_if_wanted(const SheetScans& scans, const BothSides& sides,
                                             const std::optional<Datum>& datum,
                                             DatumChoice choice) {
  const bool edges_wanted_only =
      choice == DatumChoice::edges ||
      (choice == DatumChoice::automatic && !holes_seen(scans.recto) && !holes_seen(scans.verso));
  const bool by_edges = datum ? datum->pairs.subset(is_hole).size() == 0 : edges_wanted_only;
  if (!by_edges) return std::nullopt;
  if (auto refusal = check_edges_shown(scans.recto, sides.recto)) return refusal;
  return check_edges_shown(scans.verso, sides.verso);
}

Refusal no_datum(const SheetScans& scans, const PairedFeatures& all, bool edges_wanted) {
  if (all.subset(edges_wanted ? is_edge : is_hole).size() == 0) {
    return why_nothing_was_read(scans.recto, scans.verso, edges_wanted);
  }
  return Refusal{
      "too_few_features",
      edges_wanted
          ? tr("Too little of the paper's edges can be read on both sides. Scan so that all four "
               "edges are seen with black card beyond them.")
          : tr("Too few holes can be read on both sides; two far apart are needed and four are "
               "better. Check the punch and scan again with black card behind.")};
}

std::optional<Refusal> check_datum(const Datum& datum, const SheetScans& scans,
                                   const BothSides& sides, SheetReading& sheet) {
  sheet.warnings.insert(sheet.warnings.end(), datum.warnings.begin(), datum.warnings.end());
  const Turn turn = scans.recto.front().identity.turn;
  if (auto refusal = check_residuals(datum.pairs, datum.fit, sides.recto, sides.verso, turn,
                                     sides.axis, sheet.warnings)) {
    return refusal;
  }
  if (datum.pairs.count(FeatureKind::edge) > 0) {
    if (auto refusal = check_paper_size(sheet, sheet.warnings)) return refusal;
  }
  check_shape(datum.fit, sheet.warnings);
  check_hole_shapes(datum.pairs, sheet.warnings);
  if (datum.contradiction) return datum.contradiction;
  check_missed_holes(scans.recto, scans.verso, datum.pairs, sheet.warnings);
  return std::nullopt;
}

/// Read by its edges alone, a sheet that looks larger from one side may be one whose print was
/// scaled, or one whose edge was seen wrongly on that side. The first moves no middle; the second
/// moves it by half of the difference. Nothing tells which, so half of what is more than prints
/// usually differ by is stated as well.
void cover_an_edge_at_fault(SheetReading& sheet) {
  if (!sheet.recto_lay || !sheet.verso_lay) return;
  constexpr double kUsualMm = 0.1;  // 300 to 500 ppm
  constexpr double kUsualMrad = 0.5;
  const auto unusual = [](double value, double usual) {
    return std::max(0.0, std::abs(value) - usual);
  };
  const double wider_mm =
      unusual(sheet.verso_lay->paper_width_mm - sheet.recto_lay->paper_width_mm, kUsualMm);
  const double longer_mm =
      unusual(sheet.verso_lay->paper_height_mm - sheet.recto_lay->paper_height_mm, kUsualMm);
  sheet.covariance(0, 0) += wider_mm * wider_mm / 4;
  sheet.covariance(1, 1) += longer_mm * longer_mm / 4;
  // An edge that lies askew on one side turns the sheet by half of what it shears it.
  sheet.covariance(2, 2) += std::pow(unusual(sheet.registration.shear_mrad, kUsualMrad), 2);
}

void take_over(const Datum& datum, SheetReading& sheet) {
  sheet.registration = datum.fit.registration;
  sheet.covariance = datum.fit.covariance;
  if (datum.pairs.subset(is_hole).size() == 0) cover_an_edge_at_fault(sheet);
  sheet.model = datum.fit.model;
  sheet.residual_rms_mm = datum.fit.residual_rms_mm;
  sheet.datum = name_of(datum.pairs);
  sheet.datum_reason = datum.reason;
  sheet.features = datum.pairs.readings();
  report_lean(datum, sheet);
}

}  // namespace

Result<SheetReading> register_sheet(const SheetScans& scans, DatumChoice choice) {
  if (const auto refusal = check_both_sides_shown(scans)) return *refusal;
  const PageIdentity& identity = scans.recto.front().identity;
  const BothSides sides{combine_scans(scans.recto), combine_scans(scans.verso),
                        turn_axis(identity.turn, identity.paper)};
  SheetReading sheet = begun_reading(scans, sides);
  if (const auto refusal = check_printed_scale(sheet, sheet.warnings)) return *refusal;
  if (const auto refusal = check_repeats(scans.recto, sides.recto, sheet.warnings)) return *refusal;
  if (const auto refusal = check_repeats(scans.verso, sides.verso, sheet.warnings)) return *refusal;

  const PairedFeatures all = PairedFeatures::by_name(sides.recto, sides.verso, sides.axis);
  const auto datum = choose(all, choice, paper_size_agrees(sheet));
  if (const auto refusal = check_edges_if_wanted(scans, sides, datum, choice)) return *refusal;
  if (!datum) return no_datum(scans, all, choice == DatumChoice::edges || sheet.correction);
  if (const auto refusal = check_datum(*datum, scans, sides, sheet)) return *refusal;
  take_over(*datum, sheet);
  sheet.repeats =
      repeated_registrations(scans.recto, scans.verso, sheet.features, sheet.model, sides.axis);
  return sheet;
}

}  // namespace versolay
