// The two passes of one sheet through the simulated printer.
#pragma once

#include "rehearse/frames.h"
#include "rehearse/random.h"
#include "rehearse/settings.h"
#include "versolay/registration.h"

namespace versolay::rehearse {

/// Where the two pages of a sheet came to lie on it, in the sheet's final size.
struct Passes {
  TurnAxis axis = TurnAxis::vertical;
  Affine<SheetFrontMm, RectoMm> front;  // F
  Affine<SheetBackMm, VersoMm> back;    // B

  /// R = (M F M)^-1 B: where a point of the back page landed, measured in the page that was
  /// printed on the front and seen from the back.
  Affine<VersoMm, VersoMm> landed_from_page() const;
  Registration registration() const;
};

/// One feed of each pass. The first pass puts its page somewhere on the sheet; the sheet grows;
/// the second pass lands off the first by mean + draw.
Passes draw_passes(const PassSettings& settings, TurnAxis axis, Random random);

}  // namespace versolay::rehearse
