#include "imposition/sheet_plan.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "imposition/back_art.h"
#include "imposition/findings.h"
#include "imposition/shared_cuts.h"
#include "layout/placement.h"
#include "profile/recommendation.h"
#include "profile/residual_field.h"
#include "target/waste_drawing.h"

namespace versolay {
namespace {

void append(Notices& to, const Notices& from) { to.insert(to.end(), from.begin(), from.end()); }

/// The advice on the profile, where it is needed. Where it is to leave the backs where they are,
/// its oversize covers the mean as well: more than enough for backs that are moved by it.
Result<std::optional<Advice>> needed_advice(const ImposeRequest& r, const CardGrid& grid) {
  if (!r.backs.profile || (r.backs.oversize && !r.outputs.preview)) return std::optional<Advice>();
  Result<Advice> advice = advise(*r.backs.profile, advice_request(r, grid));
  if (!advice) return advice.refusal();
  return std::optional<Advice>(std::move(advice).value());
}

Reach wanted_oversize(const ImposeRequest& r, const std::optional<Advice>& advice) {
  if (r.backs.oversize) return *r.backs.oversize;
  if (!advice) return {};
  return {advice->oversize.x_mm, advice->oversize.y_mm};
}

/// The marks name the correction in whole micrometres and so on; so that much is applied, exactly.
void round_to_what_marks_can_say(Affine<VersoMm, VersoMm>& page_from_wanted) {
  const auto coded = coded_correction(registration_from(page_from_wanted));
  if (coded) page_from_wanted = coded->landed_from_page();
}

BackCorrection correction_of(const ImposeRequest& r, const CardGrid& grid, TurnAxis axis) {
  if (!r.backs.profile) return {};
  const PrinterProfile& profile = *r.backs.profile;
  Registration mean = profile.mean;
  if (!r.backs.can_scale) mean.scale_x_ppm = mean.scale_y_ppm = mean.shear_mrad = 0.0;
  if (!r.backs.can_rotate) mean = {.dx_mm = mean.dx_mm, .dy_mm = mean.dy_mm};
  BackCorrection correction{mean.page_from_wanted(), {}};
  if (r.marks.registration) round_to_what_marks_can_say(correction.page_from_wanted);
  if (!profile.field.real) return correction;
  std::vector<Point<VersoMm>> centres;
  for (const Cell& cell : grid.cells) centres.push_back(verso_from_recto(axis)(cell.centre));
  for (const Eigen::Vector2d& landed : field_at(profile.field, centres).at_mm) {
    correction.cards_moved_mm.push_back(-landed);
  }
  return correction;
}

double most_moved(const std::vector<Eigen::Vector2d>& moves) {
  double most = 0.0;
  for (const Eigen::Vector2d& move : moves) most = std::max(most, move.cwiseAbs().maxCoeff());
  return most;
}

std::vector<std::size_t> used_backs(const Deck& deck) {
  std::set<std::size_t> used;
  for (const CardArt& card : deck.cards) used.insert(card.back);
  return {used.begin(), used.end()};
}

EdgeCounts count_edges(const std::vector<std::size_t>& backs, const std::vector<BackEdge>& edges) {
  EdgeCounts counts;
  for (const std::size_t back : backs) {
    switch (edges[back].kind) {
      case EdgeKind::white:
        ++counts.white;
        break;
      case EdgeKind::plain:
        ++counts.plain;
        break;
      case EdgeKind::pattern:
        ++counts.pattern;
        break;
      case EdgeKind::picture:
        ++counts.picture;
        break;
    }
  }
  return counts;
}

/// Beyond a cut that two cards share, the neighbour's back shows. It does no harm where it looks
/// like the own back going on.
bool neighbours_go_on(const Deck& deck, const std::vector<std::size_t>& backs,
                      const std::vector<BackEdge>& edges, const ArtRules& rules) {
  const bool one_pattern =
      backs.size() == 1 && edges[backs[0]].kind == EdgeKind::pattern &&
      !must_be_enlarged(EdgeKind::pattern, bleed_of(deck.images[backs[0]], rules));
  return one_pattern || share_plain_edge(backs, deck.images, edges);
}

/// What to know about the edges of the backs.
Notices remarks_on_edges(const ImposeRequest& r, const Deck& deck,
                         const std::vector<std::size_t>& backs, const SheetPlan& plan) {
  Notices remarks;
  const BackReach& reach = plan.back_reach;
  const int white = reach.counts.white;
  const bool all_white = white == static_cast<int>(backs.size());
  if (white > 0 && (reach.wanted.x_mm > 0 || reach.wanted.y_mm > 0)) {
    remarks.push_back(findings::white_edge(white, Term{all_white ? "all" : "some"}));
  }
  const double oversize = std::max(reach.granted.x_mm, reach.granted.y_mm);
  if (oversize <= 0 || plan.grid.cells.size() < 2) return remarks;
  const Length gutter_needed{std::ceil(20 * oversize) / 10};
  if (reach.inner_mm < oversize && !all_white) {
    const Term where{r.sheet.gutter_mm > 0 ? "gutter" : "cut"};
    remarks.push_back(
        plan.shared_cuts
            ? remark_on(*plan.shared_cuts, oversize, r.sheet.gutter_mm, r.backs.confidence)
            : findings::inner_edges(Length{oversize}, gutter_needed, where));
  }
  for (const std::size_t back : backs) {
    const BackEdge& edge = reach.edges[back];
    if (edge.kind != EdgeKind::plain || edge.band_mm >= oversize ||
        r.sheet.gutter_mm >= 2 * oversize) {
      continue;
    }
    remarks.push_back(findings::narrow_edge(file_of(deck.images[back]), Length{edge.band_mm},
                                            Length{oversize}, Length{std::ceil(10 * oversize) / 10},
                                            gutter_needed));
    break;
  }
  return remarks;
}

/// As many cards as fit with their bleed, or what the user asks for.
Result<CardGrid> grid_of(const ImposeRequest& r, const Paper& paper, double bleed_mm) {
  GridRequest request;
  request.paper = paper;
  request.card = r.cards.size;
  request.shape = r.sheet.grid;
  request.gutter_mm = r.sheet.gutter_mm;
  request.margins = r.sheet.margins;
  request.blocks = r.sheet.blocks;
  request.bleed_mm = bleed_mm;
  return fit_grid(request);
}

/// Bleed costs room; where it costs cards, that is worth knowing.
Notices remarks_on_bleed(const ImposeRequest& r, const SheetPlan& plan) {
  const double bleed_mm = plan.front_art.bleed_mm;
  if (r.sheet.grid || bleed_mm <= 0) return {};
  const Result<CardGrid> without = grid_of(r, plan.paper, 0.0);
  if (!without || without.value().cells.size() <= plan.grid.cells.size()) return {};
  return {findings::bleed_costs_cards(Length{bleed_mm},
                                      static_cast<std::int64_t>(without.value().cells.size()),
                                      static_cast<std::int64_t>(plan.grid.cells.size()))};
}

CutPlan cuts_of(const ImposeRequest& r, const CardGrid& grid) {
  if (!r.cutting.laminated) return plan_cuts(grid);
  constexpr double kMostStretch = 0.03;
  const LaminatedScale& scale = *r.cutting.laminated;
  for (const double one : {scale.x, scale.y}) {
    if (!(std::abs(one - 1) <= kMostStretch)) {
      throw BadField("laminated_mm", findings::laminated_scale_impossible(one));
    }
  }
  return plan_cuts(grid, scale.x, scale.y);
}

/// The cards in the order of the sheets.
std::vector<PlacedCard> placed_cards(const Deck& deck, const CardGrid& grid) {
  std::vector<PlacedCard> list;
  for (std::size_t i = 0; i < deck.cards.size(); ++i) {
    const Cell& cell = grid.cells[i % grid.cells.size()];
    const CardArt& card = deck.cards[i];
    list.push_back({.sheet = static_cast<int>(i / grid.cells.size()) + 1,
                    .row = cell.row,
                    .column = cell.column,
                    .name = card.name,
                    .note = card.note,
                    .front = file_of(deck.images[card.front]),
                    .back = file_of(deck.images[card.back])});
  }
  return list;
}

/// The fronts reach as far as their bleed, the backs as far as they may; the block is moved where
/// that makes room.
Result<Placement> placement_of(const ImposeRequest& r, const SheetPlan& plan, bool all_white) {
  PlacementRequest request;
  request.grid = plan.grid;
  request.paper = plan.paper;
  request.turn = plan.turn;
  request.margins = r.sheet.margins;
  request.front = plan.front_reach();
  request.back = all_white ? Reach{} : plan.back_reach.wanted;
  request.page_from_wanted = plan.correction.page_from_wanted;
  request.cards_moved_mm = most_moved(plan.correction.cards_moved_mm);
  return place_on_paper(request);
}

/// Paper, turn and grid, and what the profile says of them.
Result<SheetPlan> started(const ImposeRequest& r, const Deck& deck) {
  const auto& profile = r.backs.profile;
  SheetPlan plan;
  plan.paper = r.sheet.paper ? *r.sheet.paper : profile ? profile->paper : parse_paper("a4");
  plan.turn = r.sheet.turn ? *r.sheet.turn : profile ? profile->turn : Turn::long_edge;
  if (profile) {
    if (const auto no = profile_mismatch(*profile, plan.paper, plan.turn)) return *no;
    append(plan.warnings, other_setup(*profile, r.backs.setup));
    append(plan.warnings, remarks_on(*profile));
  }
  plan.front_art = with_own_bleed(deck, r.cards.front_art);
  Result<CardGrid> grid = grid_of(r, plan.paper, plan.front_art.bleed_mm);
  if (!grid) return grid.refusal();
  plan.grid = std::move(grid).value();
  return plan;
}

}  // namespace

AdviceRequest advice_request(const ImposeRequest& r, const CardGrid& grid) {
  AdviceRequest request;
  request.grid = grid;
  request.coverage = r.backs.coverage;
  request.confidence = r.backs.confidence;
  request.can_rotate = r.backs.can_rotate;
  request.can_scale = r.backs.can_scale;
  request.can_move_cards = true;
  return request;
}

Result<SheetPlan> plan_sheets(const ImposeRequest& r, const Deck& deck) {
  Result<SheetPlan> start = started(r, deck);
  if (!start) return start.refusal();
  SheetPlan plan = std::move(start).value();

  const Result<std::optional<Advice>> advice = needed_advice(r, plan.grid);
  if (!advice) return advice.refusal();
  plan.advice = advice.value();
  if (plan.advice) append(plan.warnings, plan.advice->warnings);

  const std::vector<std::size_t> backs = used_backs(deck);
  BackReach& reach = plan.back_reach;
  reach.edges = back_edges(deck, r.cards.size, r.backs.art, r.backs.edge);
  reach.counts = count_edges(backs, reach.edges);
  reach.wanted = wanted_oversize(r, plan.advice);

  plan.correction = correction_of(r, plan.grid, plan.axis());
  const Result<Placement> placement =
      placement_of(r, plan, reach.counts.white == static_cast<int>(backs.size()));
  if (!placement) return placement.refusal();
  plan.grid = placement.value().grid;
  plan.moved_mm = placement.value().moved_mm;
  append(plan.warnings, placement.value().remedies);
  plan.correction = correction_of(r, plan.grid, plan.axis());  // the field where they lie now

  reach.granted = placement.value().back;
  const double oversize = std::max(reach.granted.x_mm, reach.granted.y_mm);
  reach.inner_mm = neighbours_go_on(deck, backs, reach.edges, r.backs.art)
                       ? oversize
                       : std::min(r.sheet.gutter_mm / 2, oversize);
  reach.enlargement = enlargement_of_backs(
      backs, deck.images, reach.edges, r.backs.art, r.cards.size,
      plan.grid.sideways ? Reach{reach.granted.y_mm, reach.granted.x_mm} : reach.granted);

  if (r.backs.profile && reach.inner_mm < oversize) {
    plan.shared_cuts = shared_cuts(
        *r.backs.profile, advice_request(r, plan.grid),
        registration_from(plan.correction.page_from_wanted.inverse()),
        verso_places(plan.grid, plan.axis(), reach.granted, plan.correction.cards_moved_mm),
        reach.granted);
  }

  plan.cuts = cuts_of(r, plan.grid);
  plan.placed = placed_cards(deck, plan.grid);
  const std::size_t cells = plan.grid.cells.size();
  const std::size_t sheets = (deck.cards.size() + cells - 1) / cells;
  plan.sheets = static_cast<int>(sheets);
  plan.blank_cells = static_cast<int>(sheets * cells - deck.cards.size());
  append(plan.warnings, remarks_on_edges(r, deck, backs, plan));
  append(plan.warnings, remarks_on_bleed(r, plan));
  plan.artwork = check_artwork(deck, r.cards.size, plan.front_art, r.backs.art, r.cards.wanted_ppi);
  append(plan.warnings, plan.artwork.warnings);
  return plan;
}

}  // namespace versolay
