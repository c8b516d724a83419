// Whether the artwork of a page laid out elsewhere extends far enough beyond its cuts.
#pragma once

#include <optional>
#include <span>

#include "artwork/raster.h"
#include "layout/artwork_place.h"
#include "versolay/paper.h"

namespace versolay {

/// The edge of a card beyond which the artwork ends soonest, before it has reached far enough.
struct ArtEnd {
  double reach_mm = 0.0;   // beyond the cut
  double wanted_mm = 0.0;  // at that edge
};

/// Looks outward from every edge of every card, at twenty places along it; where the card itself is
/// paper white at the edge there is nothing to go on. nullopt: the artwork reaches far enough.
/// @param page    the whole page of backs, before it is corrected: grey or colours, any resolution
/// @param places  the cards on that page; `ink` as far as the artwork has to reach
std::optional<ArtEnd> early_end_of_art(const Raster& page, const Paper& paper,
                                       std::span<const CardPlace> places);

}  // namespace versolay
