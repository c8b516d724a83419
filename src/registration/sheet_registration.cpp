#include "registration/sheet_registration.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "measure/median.h"
#include "registration/checks.h"
#include "registration/findings.h"
#include "registration/page_order.h"
#include "registration/paired_features.h"
#include "registration/pass_lays.h"
#include "registration/print_lay.h"
#include "registration/print_scale.h"
#include "registration/repeats.h"
#include "registration/scan_checks.h"

namespace versolay {
namespace {

// Limits without a source are chosen from memory, as those of checks.cpp.
constexpr std::size_t kLeastHolesToDropOne = 6;
constexpr double kAgreementChi2 = 16.27;  // 0.999 quantile of chi2 with 3 degrees of freedom
constexpr double kForeignPartMm = 0.5;
/// Differences of holes and edges below these are no reason for a remark, whatever both state.
constexpr double kAgreementAlwaysMm = 0.03;
constexpr double kAgreementAlwaysMrad = 0.2;
constexpr double kLeanSigmas = 2.5;
constexpr double kDoubtfulShare = 0.1;  // of the places along the edges
constexpr double k95Sigmas = 1.96;      // normal, two-sided

/// What to fit, and what it gave.
struct Datum {
  PairedFeatures pairs;
  DisplacementFit fit;
  Notices notes;  // why this and no other
  Notices warnings;
  std::optional<Refusal> contradiction = std::nullopt;  // of holes and edges
};

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
void leave_out_rough_edges(PairedFeatures& pairs, Notices& notes, Notices& warnings) {
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
  const Finding left_out =
      findings::edge_places_left_out(static_cast<std::int64_t>(dropped), Length{worst_dropped_mm});
  notes.push_back(left_out);
  const bool by_edges_alone = pairs.count(FeatureKind::edge) == static_cast<int>(pairs.size());
  if (by_edges_alone &&
      kDoubtfulShare * static_cast<double>(places) <= static_cast<double>(dropped)) {
    warnings.push_back(left_out);
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
    const Length off{hole.residual_mm.norm()};
    if (holes < kLeastHolesToDropOne) {
      warnings.push_back(findings::hole_off(hole.id, off));
      return result;
    }
    warnings.push_back(findings::hole_left_out(hole.id, off));
    pairs.remove(worst);
  }
}

std::optional<Datum> datum_from(PairedFeatures pairs, Notices notes) {
  if (pairs.size() < 2) return std::nullopt;
  Notices warnings;
  leave_out_rough_edges(pairs, notes, warnings);
  Datum datum{std::move(pairs), {}, std::move(notes), std::move(warnings)};
  auto fit = fit_without_torn_holes(datum.pairs, datum.warnings);
  if (!fit) return std::nullopt;
  datum.fit = std::move(*fit);
  return datum;
}

/// Do holes and edges give the same shift and rotation, within what both state?
bool agree(const DisplacementFit& a, const DisplacementFit& b) {
  const Eigen::Vector3d difference = (a.registration.vec() - b.registration.vec()).head<3>();
  if (difference.head<2>().norm() < kAgreementAlwaysMm &&
      std::abs(difference[2]) < kAgreementAlwaysMrad) {
    return true;
  }
  const Eigen::Matrix3d covariance = (a.covariance + b.covariance).topLeftCorner<3, 3>();
  return difference.dot(covariance.ldlt().solve(difference)) < kAgreementChi2;
}

Length known_to(const DisplacementFit& fit) {
  return {k95Sigmas * std::sqrt(std::max(fit.covariance(0, 0), fit.covariance(1, 1)))};
}

/// What is stated then covers both: the true value may be the one or the other.
void cover_both(const Eigen::Vector3d& difference, DisplacementFit& fit) {
  fit.covariance.topLeftCorner<3, 3>() += difference * difference.transpose();
}

/// Holes alone, because the edges are not to be trusted; says so.
Datum without_edges(Datum holes, const Finding& why) {
  holes.notes = {why};
  holes.warnings.push_back(why);
  return holes;
}

/// Holes and edges were both read.
Datum from_both(const PairedFeatures& all, Datum holes, const Datum& edges,
                bool paper_size_agrees) {
  const double rough_mm = edges.pairs.residual_rms_mm(is_edge);
  if (rough_mm > residual_limits(FeatureKind::edge).fail) {
    return without_edges(std::move(holes), findings::edges_rough(Length{rough_mm}));
  }
  if (!paper_size_agrees) {
    return without_edges(std::move(holes), findings::edges_of_another_size());
  }
  if (agree(holes.fit, edges.fit)) {
    auto both = datum_from(all, {});
    if (!both) return holes;
    both->notes.insert(both->notes.begin(),
                       findings::holes_and_edges_agree(known_to(holes.fit), known_to(edges.fit),
                                                       known_to(both->fit)));
    return std::move(*both);
  }
  const Eigen::Vector3d difference =
      (edges.fit.registration.vec() - holes.fit.registration.vec()).head<3>();
  const Eigen::Vector2d d = difference.head<2>();
  if (d.norm() > kForeignPartMm) {  // parts of one sheet cannot be this far apart
    holes.contradiction = findings::holes_against_edges(Length{d.norm()});
    return holes;
  }
  holes.notes = {findings::edges_not_followed()};
  cover_both(difference, holes.fit);
  holes.warnings.push_back(findings::datums_disagree(Length{std::abs(d[0])}, Length{std::abs(d[1])},
                                                     Angle{std::abs(difference[2])}));
  return holes;
}

/// @return nullopt when too little was read.
std::optional<Datum> choose(const PairedFeatures& all, DatumChoice choice, bool paper_size_agrees) {
  const bool automatic = choice == DatumChoice::automatic;
  auto holes = datum_from(all.subset(is_hole),
                          {automatic ? findings::no_edges_read() : findings::datum_asked_for()});
  if (choice == DatumChoice::holes) return holes;
  auto edges = datum_from(all.subset(is_edge),
                          {automatic ? findings::no_holes_read() : findings::datum_asked_for()});
  if (choice == DatumChoice::edges || !holes) return edges;
  if (!edges) return holes;
  return from_both(all, std::move(*holes), *edges, paper_size_agrees);
}

Datums datums_of(const PairedFeatures& pairs) {
  Datums datums;
  datums.punched = pairs.count(FeatureKind::punch) > 0;
  datums.pricked = pairs.count(FeatureKind::prick) > 0;
  datums.edges = pairs.count(FeatureKind::edge) > 0;
  return datums;
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
    sheet.datum_notes.push_back(findings::pin_leaned(Length{datum.fit.nuisance.norm()}));
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
    return back_missing ? findings::other_side_missing(Term{"front"}, Term{"back"})
                        : findings::other_side_missing(Term{"back"}, Term{"front"});
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
  // That of the back, which may be fitted to this one front; the front names that of all.
  sheet.correction = scans.verso.front().correction;
  for (const auto* side : {&scans.recto, &scans.verso}) {
    for (const SideReading& scan : *side) sheet.files.push_back(scan.scan_name);
    keep_scan_warnings(*side, sheet.warnings);
  }
  sheet.photographed = any_photograph(scans);
  sheet.recto_lay = print_lay_of(sides.recto);
  sheet.verso_lay = print_lay_of(sides.verso);
  sheet.recto_passes = pass_lays(scans.recto);
  sheet.verso_passes = pass_lays(scans.verso);
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
  return findings::too_few_features(Term{edges_wanted ? "edges" : "holes"});
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
/// moves it by half of the difference. Nothing shows which, so half of what is more than prints
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
  // An edge askew by an angle a on one side changes rotation and shear_mrad by a / 2 each.
  sheet.covariance(2, 2) += std::pow(unusual(sheet.registration.shear_mrad, kUsualMrad), 2);
}

void take_over(const Datum& datum, SheetReading& sheet) {
  sheet.registration = datum.fit.registration;
  sheet.covariance = datum.fit.covariance;
  if (datum.pairs.subset(is_hole).size() == 0) cover_an_edge_at_fault(sheet);
  sheet.model = datum.fit.model;
  sheet.residual_rms_mm = datum.fit.residual_rms_mm;
  sheet.datum = datums_of(datum.pairs);
  sheet.datum_notes = datum.notes;
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
