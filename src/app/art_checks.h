// Is the artwork fine enough, and has it the shape of the card?
#pragma once

#include "app/back_edges.h"
#include "app/impose.h"

namespace versolay {

struct ArtFindings {
  EffectivePpi front_ppi;
  EffectivePpi back_ppi;
  Notices warnings;  // low_resolution, wrong_aspect
};

/// Resolution and shape of all artwork at the size of the card, before any oversize. Remarks are
/// gathered, so that a hundred cards make one sentence; they name the numbers that would be right.
ArtFindings check_artwork(const Deck& deck, CardSize card, const ArtRules& fronts,
                          const ArtRules& backs, double wanted_ppi);

}  // namespace versolay
