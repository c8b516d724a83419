// The two passes of one sheet through the simulated printer.
#pragma once

#include <vector>

#include "rehearse/settings.h"
#include "rehearse/simulation_frames.h"
#include "rehearse/simulation_random.h"
#include "versolay/registration.h"

namespace versolay::rehearse {

/// Where the two pages of a sheet came to lie on it, in the sheet's final size.
struct Passes {
  TurnAxis axis = TurnAxis::vertical;
  Affine<SheetFrontMm, RectoMm> front;  // F
  Affine<SheetBackMm, VersoMm> back;    // B
  /// From the second pass of each side on.
  std::vector<Affine<SheetFrontMm, RectoMm>> further_fronts;
  std::vector<Affine<SheetBackMm, VersoMm>> further_backs;

  /// Position of pass `i + 2` relative to the first, in the page of the side.
  Registration front_lay(std::size_t i) const;
  Registration back_lay(std::size_t i) const;

  /// R = (M F M)^-1 B: where a point of the back page landed, measured in the page that was
  /// printed on the front and seen from the back.
  Affine<VersoMm, VersoMm> landed_from_page() const;
  Registration registration() const;
};

/// One feed of each pass. The first pass puts its page somewhere on the sheet; the sheet grows;
/// the second pass lands off the first by mean + draw.
Passes draw_passes(const PassSettings& settings, TurnAxis axis, Random random);

}  // namespace versolay::rehearse
