// Do these readings fit into one profile?
#pragma once

#include <optional>
#include <vector>

#include "profile/estimate.h"

namespace versolay {

/// A refusal for no sheets, different turn or paper, or the same sheet twice.
std::optional<Refusal> why_no_profile(const std::vector<ReadingSession>& sessions);

}  // namespace versolay
