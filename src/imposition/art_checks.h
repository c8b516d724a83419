// Does the artwork have enough resolution, and the shape of the card?
#pragma once

#include "imposition/back_edges.h"
#include "versolay/result.h"

namespace versolay {

/// Resolution of the images at the size of the card, over all images of one side; pages of a PDF
/// have none. 0: no images.
struct EffectivePpi {
  double lowest = 0.0;
  double highest = 0.0;
};

struct ArtFindings {
  EffectivePpi front_ppi;
  EffectivePpi back_ppi;
  Notices warnings;  // low_resolution, wrong_aspect, like_bleed
};

/// Resolution and shape of all artwork at the size of the card, before any oversize. Remarks are
/// gathered, so that a hundred cards make one sentence; they name the numbers that would be right.
ArtFindings check_artwork(const Deck& deck, CardSize card, const ArtRules& fronts,
                          const ArtRules& backs, double wanted_ppi);

}  // namespace versolay
