#include "registration/page_order.h"

#include <algorithm>

#include "core/doubt.h"
#include "registration/checks.h"
#include "registration/findings.h"
#include "registration/paired_features.h"

namespace versolay {
namespace {

constexpr double kHandReachMm = 6.0;   // between where a hole lies on the one page and on the other
constexpr double kOtherSheetMm = 0.3;  // rescans of one sheet agree far better
constexpr std::size_t kLeastHoles = 3;

/// Do the two scans show holes at different places of the page?
bool holes_differ(const SideReading& a, const SideReading& b) {
  std::size_t common = 0;
  std::size_t apart = 0;
  for (const SideFeature& hole : a.places.features) {
    if (is_edge(hole.kind)) continue;
    for (const SideFeature& other : b.places.features) {
      if (other.id != hole.id) continue;
      ++common;
      apart += (other.at.vec() - hole.at.vec()).norm() > kOtherSheetMm ? 1 : 0;
    }
  }
  return 2 * apart > common || common < kLeastHoles;
}

bool are_two_sides(const SideReading& a, const SideReading& b, TurnAxis axis) {
  PairedFeatures pairs =
      PairedFeatures::by_place(combine_scans({a}), combine_scans({b}), axis, kHandReachMm);
  if (pairs.size() < kLeastHoles) return false;
  const auto fit = pairs.fit();
  return fit && pairs.residual_rms_mm(is_hole) < residual_limits(FeatureKind::punch).fail;
}

/// Refusals that may come of a back that belongs to another sheet.
bool may_be_wrong_back(const Refusal& refusal) {
  return refusal == findings::not_same_sheet || refusal == findings::holes_disagree ||
         refusal == findings::wrong_turn || refusal == findings::offset_too_large ||
         refusal == findings::holes_against_edges;
}

bool on_one_sheet(const SheetScans& front, const SheetScans& back) {
  const auto sheet = register_sheet({front.recto, back.verso}, DatumChoice::automatic);
  if (!sheet) return false;
  const auto holes = std::count_if(sheet.value().features.begin(), sheet.value().features.end(),
                                   [](const FeatureReading& f) { return !f.normal; });
  const Notices& doubts = sheet.value().warnings;
  return static_cast<std::size_t>(holes) >= kLeastHoles &&
         std::none_of(doubts.begin(), doubts.end(), [](const Notice& n) {
           return n == findings::edges_rough || casts_doubt(n.code);
         });
}

}  // namespace

std::optional<Refusal> check_same_side_twice(const std::vector<SideReading>& scans) {
  for (std::size_t a = 0; a < scans.size(); ++a) {
    for (std::size_t b = a + 1; b < scans.size(); ++b) {
      if (!holes_differ(scans[a], scans[b])) continue;
      for (const TurnAxis axis : {TurnAxis::vertical, TurnAxis::horizontal}) {
        if (!are_two_sides(scans[a], scans[b], axis)) continue;
        return findings::same_side_twice(
            Term{scans[a].identity.side == Side::recto ? "front" : "back"}, scans[a].scan_name,
            scans[b].scan_name);
      }
    }
  }
  return std::nullopt;
}

void name_wrong_backs(std::vector<RefusedSheet>& refused) {
  std::vector<std::optional<Refusal>> better(refused.size());
  for (std::size_t i = 0; i < refused.size(); ++i) {
    if (!may_be_wrong_back(refused[i].refusal)) continue;
    for (std::size_t j = 0; j < refused.size(); ++j) {
      if (i == j || !may_be_wrong_back(refused[j].refusal)) continue;
      if (!on_one_sheet(refused[i].scans, refused[j].scans)) continue;
      better[i] = findings::wrong_back(refused[j].scans.verso.front().identity.sheet);
      break;
    }
  }
  for (std::size_t i = 0; i < refused.size(); ++i) {
    if (better[i]) refused[i].refusal = *better[i];
  }
}

}  // namespace versolay
