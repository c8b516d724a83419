// How well one scan of each side reads a sheet, from sheets that were scanned several times.
#pragma once

#include <optional>
#include <vector>

#include "versolay/sheet_readings.h"
#include "versolay/study_results.h"

namespace versolay {

/// From SheetReading::repeats. nullopt: no sheet was scanned several times on both sides.
std::optional<GaugeReport> gauge_of(const std::vector<SheetReading>& sheets);

}  // namespace versolay
