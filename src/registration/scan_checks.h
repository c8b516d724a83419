// Do the scans of one side show all of it, and do they agree with each other?
#pragma once

#include <optional>

#include "registration/combined_features.h"

namespace versolay {

/// Share of the rings of this side that none of the scans shows. Precondition: not empty.
double share_not_shown(const std::vector<SideReading>& scans);
/// All of it, but for a corner or a strip.
bool shows_whole_side(const std::vector<SideReading>& scans);

/// Refuses (half_missing) a side of which no scan shows a large part: half of a sheet that was
/// scanned in halves.
std::optional<Refusal> check_whole_side_shown(const std::vector<SideReading>& scans);

/// Limits of the rms difference of two scans of one side, mm.
struct RepeatLimits {
  double warn;
  double fail;
};
RepeatLimits repeat_limits(bool turned);

/// Scans that show the same features of one side: adds a notice (repeat_differs, scanner_stretches)
/// or refuses (also not_same_sheet).
std::optional<Refusal> check_repeats(const std::vector<SideReading>& scans,
                                     const CombinedFeatures& combined, Notices& warnings);

/// True when any scan shows a hole, be it readable or not.
bool holes_seen(const std::vector<SideReading>& scans);

/// Refuses (edges_cut_off) a side of which one edge of the paper cannot be read because the
/// pictures end there.
std::optional<Refusal> check_edges_shown(const std::vector<SideReading>& scans,
                                         const CombinedFeatures& combined);

}  // namespace versolay
