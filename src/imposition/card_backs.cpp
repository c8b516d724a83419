#include "imposition/card_backs.h"

#include <algorithm>
#include <array>

#include "layout/slack.h"

namespace versolay {
namespace {

constexpr double kFarBeyondMm = 20.0;  // no back lands that far off

std::array<Point<VersoMm>, 4> corners_of(const PageRect& r) {
  return {{{r.left_mm, r.top_mm},
           {r.right_mm, r.top_mm},
           {r.right_mm, r.bottom_mm},
           {r.left_mm, r.bottom_mm}}};
}

}  // namespace

CardsNote cards_note(const SheetPlan& plan, std::span<const CardPlace> places) {
  const BackReach& reach = plan.back_reach;
  const EdgeCounts& edges = reach.counts;
  const bool all_white = edges.white > 0 && edges.plain + edges.pattern + edges.picture == 0;
  const bool neighbours_go_on =
      reach.inner_mm + kSlackMm >= std::max(reach.granted.x_mm, reach.granted.y_mm);
  CardsNote note;
  note.cards = static_cast<int>(plan.placed.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    const PageRect card = verso_place(plan.grid, plan.grid.cells[i], plan.axis(), {}).cell;
    const PageRect& artwork = places[i].cell;
    const PageRect covered = all_white ? artwork.grown(kFarBeyondMm)
                             : neighbours_go_on
                                 ? artwork.grown(reach.granted.x_mm, reach.granted.y_mm)
                                 : places[i].ink;
    note.backs.push_back({card, artwork.centre().vec() - card.centre().vec(), covered});
  }
  return note;
}

std::vector<CardBack> card_backs(const CardGrid& grid, TurnAxis axis, Reach oversize) {
  std::vector<CardBack> backs;
  for (const Cell& cell : grid.cells) {
    const PageRect card = verso_place(grid, cell, axis, {}).cell;
    backs.push_back({card, {0.0, 0.0}, card.grown(oversize.x_mm, oversize.y_mm)});
  }
  return backs;
}

bool is_clean(const CardBack& back, const Affine<VersoMm, VersoMm>& landed_from_artwork) {
  std::array<Eigen::Vector2d, 4> landed;
  const auto corners = corners_of(back.covered);
  for (std::size_t i = 0; i < 4; ++i) landed[i] = landed_from_artwork(corners[i]).vec();
  return std::max(landed[0].x(), landed[3].x()) <= back.card.left_mm &&
         std::max(landed[0].y(), landed[1].y()) <= back.card.top_mm &&
         std::min(landed[1].x(), landed[2].x()) >= back.card.right_mm &&
         std::min(landed[2].y(), landed[3].y()) >= back.card.bottom_mm;
}

double off_mm(const CardBack& back, const Affine<VersoMm, VersoMm>& landed_from_artwork) {
  double most = 0.0;
  for (const Point<VersoMm>& corner : corners_of(back.card)) {
    const Point<VersoMm> artwork = Point<VersoMm>::from(corner.vec() + back.moved_mm);
    most = std::max(most, (landed_from_artwork(artwork).vec() - corner.vec()).norm());
  }
  return most;
}

}  // namespace versolay
