#include "imposition/shared_cuts.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "imposition/findings.h"
#include "profile/edge_yield.h"
#include "profile/recommendation.h"

namespace versolay {
namespace {

constexpr double kLittleMm = 1e-3;

EdgeReach reach_of(const CardPlace& place) {
  return {place.cell.left_mm - place.ink.left_mm, place.cell.top_mm - place.ink.top_mm,
          place.ink.right_mm - place.cell.right_mm, place.ink.bottom_mm - place.cell.bottom_mm};
}

std::vector<EdgeReach> reaches_of(std::span<const CardPlace> places) {
  std::vector<EdgeReach> list;
  for (const CardPlace& place : places) list.push_back(reach_of(place));
  return list;
}

/// Where some edge does not reach as far as the oversize: how far, and what gutter would do.
std::optional<SharedCuts> shortest_reach(std::span<const EdgeReach> list, Reach oversize) {
  SharedCuts cuts;
  cuts.reach_mm = std::max(oversize.x_mm, oversize.y_mm);
  cuts.gutter_needed_mm = std::ceil(20 * cuts.reach_mm - 1e-9) / 10;
  bool any = false;
  const auto look_at = [&](double mm, double wanted_mm) {
    if (mm > wanted_mm - kLittleMm) return;
    any = true;
    cuts.reach_mm = std::min(cuts.reach_mm, std::max(0.0, mm));
  };
  for (const EdgeReach& r : list) {
    look_at(r.left_mm, oversize.x_mm);
    look_at(r.right_mm, oversize.x_mm);
    look_at(r.top_mm, oversize.y_mm);
    look_at(r.bottom_mm, oversize.y_mm);
  }
  return any ? std::optional(cuts) : std::nullopt;
}

}  // namespace

std::optional<SharedCuts> shared_cuts(const PrinterProfile& profile, const AdviceRequest& request,
                                      const Registration& correction,
                                      std::span<const CardPlace> places, Reach oversize) {
  if (profile.spread_dof < kFewestDof) return std::nullopt;
  const std::vector<EdgeReach> reach = reaches_of(places);
  std::optional<SharedCuts> cuts = shortest_reach(reach, oversize);
  if (!cuts) return std::nullopt;
  const EdgeYield yield = edge_yield(profile, request, correction, reach);
  cuts->good = yield.good;
  cuts->sure_share = yield.sure_share;
  return cuts;
}

void add_shared_cuts(const PrinterProfile& profile, Advice& advice) {
  const AdviceRequest& request = advice.request;
  if (request.back_edge && *request.back_edge != EdgeKind::picture) return;
  const Reach oversize{advice.oversize.x_mm, advice.oversize.y_mm};
  const std::vector<EdgeReach> reach =
      reaches_of(verso_places(request.grid, turn_axis(profile.turn, profile.paper), oversize));
  std::optional<SharedCuts> cuts = shortest_reach(reach, oversize);
  if (!cuts) return;
  const EdgeYield yield = edge_yield(profile, advice, reach, request.back_edge.has_value());
  cuts->good = yield.good;
  cuts->sure_share = yield.sure_share;
  advice.shared_cuts = cuts;
}

Notice remark_on(const SharedCuts& cuts, double oversize_mm, double gutter_mm, double confidence) {
  return findings::inner_edges_share(Length{oversize_mm}, Length{cuts.gutter_needed_mm},
                                     Term{gutter_mm > 0 ? "gutter" : "cut"},
                                     Share{cuts.good.cards_per_sheet / cuts.good.cells},
                                     Share{cuts.sure_share}, Share{confidence});
}

}  // namespace versolay
