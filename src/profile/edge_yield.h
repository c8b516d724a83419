// The promise where not all edges of a back reach as far as the oversize.
#pragma once

#include <span>

#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// Cards without a sliver when each edge of each card has its own reach.
struct EdgeYield {
  ExpectedGood good;
  double sure_share = 0.0;  // share of good cards that is exceeded with the confidence asked for
};

/// @param correction  what the back artwork compensates: the mean as far as it is applied
/// @param reach       by cell of the grid, on the verso page
/// Preconditions: profile.spread_dof >= 1, request valid.
EdgeYield edge_yield(const PrinterProfile& profile, const AdviceRequest& request,
                     const Registration& correction, std::span<const EdgeReach> reach);

/// The same for an advice. Where the request names the cards wanted and `count_sheets` is true,
/// the number of sheets to print is recomputed.
EdgeYield edge_yield(const PrinterProfile& profile, Advice& advice,
                     std::span<const EdgeReach> reach, bool count_sheets);

}  // namespace versolay
