// All studies of a set of sheets; see versolay/studies.h.
#pragma once

#include "versolay/readings.h"
#include "versolay/studies.h"

namespace versolay {

/// Those that these sheets allow.
Studies studies_of(const std::vector<SheetReading>& sheets, Turn turn, const Paper& paper);

}  // namespace versolay
