// The ways to print a job, side by side: as today, moved, moved and fitted to scanned fronts.
#pragma once

#include <optional>
#include <vector>

#include "profile/recommendation.h"

namespace versolay {

/// For Advice::ways. Every way has the oversize that keeps the promise of the request; losses are
/// compared at one oversize, that of the moved backs. Fitted backs are included if the profile can
/// predict them (fitted_backs()).
std::vector<PrintingWay> printing_ways(const PrinterProfile& profile, const Advice& advice,
                                       const Effort& effort = {});

/// For Advice::editor. nullopt where no such correction can be promised.
std::optional<EditorSettings> editor_settings(const PrinterProfile& profile,
                                              const AdviceRequest& request,
                                              const Effort& effort = {});

}  // namespace versolay
