// All studies of a set of sheets; see versolay/study_results.h.
#pragma once

#include "versolay/sheet_readings.h"
#include "versolay/study_results.h"

namespace versolay {

/// Those that these sheets allow.
Studies studies_of(const std::vector<SheetReading>& sheets, Turn turn, const Paper& paper);

}  // namespace versolay
