// Positions of the card backs on a sheet, and what shows when they land off.
#pragma once

#include <span>
#include <vector>

#include "imposition/sheet_plan.h"
#include "layout/artwork_place.h"
#include "pdf/cards_note.h"

namespace versolay {

/// The backs of a job. Backs that are white at their edges show no sliver wherever they land: what
/// they cover is given as much larger than the card.
/// @param places  by cell, before the correction of the page.
CardsNote cards_note(const SheetPlan& plan, std::span<const CardPlace> places);

/// The backs of a grid, each of which reaches that far beyond its card on every side.
std::vector<CardBack> card_backs(const CardGrid& grid, TurnAxis axis, Reach oversize);

/// The same for every card: no edge of what is covered lands inside the card. The card is cut
/// straight behind its front.
/// @param landed_from_artwork  where the artwork of the back page came to lie, the correction
///        included, seen from the back in the frame of the front.
bool is_clean(const CardBack& back, const Affine<VersoMm, VersoMm>& landed_from_artwork);

/// How far the artwork of a card is off: the farthest of its four corners.
double off_mm(const CardBack& back, const Affine<VersoMm, VersoMm>& landed_from_artwork);

}  // namespace versolay
