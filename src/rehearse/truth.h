// The truth about a rehearsal, in a file for comparison after the measurement.
#pragma once

#include "core/json.h"
#include "rehearse/simulate.h"

namespace versolay::rehearse {

/// {schema, turn, paper_mm, sheets: [{sheet, registration, holes: [{id, kind, at_mm (verso page),
/// ex_mm, ey_mm, ...}]}], scans: [{file, sheet, side, ...}], settings}.
Json truth_json(const RehearsalScans& scans, const RehearsalSettings& settings);

}  // namespace versolay::rehearse
