// Where the variance comes from, and whether the feeds look normal.
#pragma once

#include <span>

#include "stats/sample.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// Standard deviations between sessions, from feed to feed and of a reading, for every component
/// that varies. Precondition: profile.spread_dof >= 1, spread and measurement covariance set.
std::vector<ComponentShare> component_shares(const PrinterProfile& profile,
                                             std::span<const stats::Sample> samples);

/// Anderson-Darling of dx, dy and rotation about the middle of their sessions, Bonferroni. Adds the
/// test to the profile, and a warning and `heavy_tails` where the feeds do not look normal. Needs 8
/// feeds or more: says nothing for fewer.
void judge_normality(PrinterProfile& profile);

/// Drift, two places and lopsided scatter in the longest session: where one of them shows (together
/// with judge_normality at 5 % for the family), `heavy_tails` is set, and the advice gives the
/// figure that allows for it. Needs 5 feeds of one session or more.
void judge_run(PrinterProfile& profile);

/// Distance of every feed from the middle of the others, shift and rotation looked at together
/// (minimum covariance determinant): two small oddities that never go together are one large one.
/// Needs 8 feeds or more. A diagnostic: warns of feeds beyond the limit and leaves none out.
void judge_distances(PrinterProfile& profile);

}  // namespace versolay
