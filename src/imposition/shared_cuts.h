// Cards with less space between them than their backs are enlarged: how many still come out clean.
#pragma once

#include <optional>
#include <span>

#include "layout/artwork_place.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// What remains of the promise of an oversize where backs are pictures that end half way to their
/// neighbour. nullopt: no place is bounded by a neighbour, or the profile has no spread.
/// @param places      the backs on the verso page, `ink` as far as each may reach
/// @param correction  what the back artwork compensates: the mean as far as it is applied
std::optional<SharedCuts> shared_cuts(const PrinterProfile& profile, const AdviceRequest& request,
                                      const Registration& correction,
                                      std::span<const CardPlace> places, Reach oversize);

/// The same for an advice, with the places of its own grid: fills shared_cuts, unless the request
/// says that backs are white or extend beyond the cut. Where it says that they are pictures, the
/// number of sheets to print is recomputed.
void add_shared_cuts(const PrinterProfile& profile, Advice& advice);

/// The remark on it: where, how many cards should be clean, and what gutter would keep the promise.
Notice remark_on(const SharedCuts& cuts, double oversize_mm, double gutter_mm, double confidence);

}  // namespace versolay
