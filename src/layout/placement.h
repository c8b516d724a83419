// Keeping both sides of a sheet inside the area that the printer can ink.
#pragma once

#include "core/drawing.h"
#include "layout/artwork_place.h"
#include "versolay/layout.h"
#include "versolay/result.h"

namespace versolay {

struct PlacementRequest {
  CardGrid grid;
  Paper paper;
  Turn turn = Turn::long_edge;
  Margins margins;                            // what the printer leaves white of either page
  Reach front;                                // beyond the cards, on the recto
  Reach back;                                 // and on the verso: the oversize
  Affine<VersoMm, VersoMm> page_from_wanted;  // the correction of the back page
  double cards_moved_mm = 0.0;                // and the largest individual shift of a back
};

struct Placement {
  CardGrid grid;                       // where the cards lie now
  Eigen::Vector2d moved_mm{0.0, 0.0};  // from where they lay, on the recto; the backs go along
  Reach back;                          // as much as there is room for
  Notices remedies;                    // block_moved, oversize_reduced
};

/// Checks the artwork of both sides, the backs after their correction, against the printable area.
/// What sticks out is brought in by moving the block (fronts, backs and cuts together, by as little
/// as will do: this shares the room between the two sides), and if that is not enough by reducing
/// the oversize in that direction.
/// @fails  not_printable: the cards themselves do not fit with the backs corrected.
Result<Placement> place_on_paper(const PlacementRequest& request);

/// The printable area of a page.
PageRect printable_area(const Paper& paper, const Margins& margins);

/// The smallest rectangle around the cells of the recto (or, behind them, of the verso) and reach.
PageRect recto_extent(const CardGrid& grid, Reach reach);
PageRect verso_extent(const CardGrid& grid, TurnAxis axis, Reach reach);

}  // namespace versolay
