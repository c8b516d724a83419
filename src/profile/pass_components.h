// The spread of sheets that were fed several times a side: variation from pass to pass, on the
// front and on the back, and additional variation from sheet to sheet.
//
// e = b - M f M + s: a feed of the back, one of the front, and the sheet (its size, where the other
// edge guides it). For m sheets with K passes, f and b have m (K - 1) degrees of freedom each,
// and the sheet means, with variance s + (f + b) / K, have m - 1:
//
//   V = S_means + (1 - 1/K) (S_f + S_b),
//
// where S_means includes one sheet's worth of the usual difference between sheets.
//
// V is used like the covariance of a plain sample with the degrees of freedom given by its variance
// (Satterthwaite, in all components at once), and with as many feeds as its mean is worth. The
// sheet means are always included: where sheets differ, the promise would otherwise fall to 0.13.
// Source  Satterthwaite, Biometrics Bulletin 2, 1946; for matrices Nel & van der Merwe,
// Communications in Statistics 15, 1986 (from memory).
#pragma once

#include <span>

#include "stats/sample.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// A plain sample equivalent to these feeds of one session.
/// @param kept  projection onto the components of the model.
/// Where no sheet has two passes, the sample of the feeds themselves; of a single sheet, that of
/// its first pass.
stats::Sample equivalent_sample(std::span<const ProfileFeed> feeds, TurnAxis axis,
                                const RegistrationMatrix& kept);

/// What differs from what, pooled over the sessions. Precondition: some sheet has two passes.
PassComponents pass_components(std::span<const ProfileFeed> feeds, TurnAxis axis,
                               const RegistrationMatrix& kept);

/// Was any sheet fed several times?
bool has_passes(std::span<const ProfileFeed> feeds);

/// M r M: a registration of the front, as it is seen from the back.
RegistrationVector seen_from_back(const Registration& r, TurnAxis axis);

}  // namespace versolay
