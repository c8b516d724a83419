// The table of sheets that `measure` and `readings` print.
#pragma once

#include <string>

#include "cli/command.h"
#include "core/fronts.h"
#include "versolay/sheet_readings.h"
#include "words/display_unit.h"

namespace versolay::cli {

/// One line for each sheet, under a heading, and what to do next.
/// @param out      the file that the readings were written to
/// @param verbose  with the studies of all sheets together
Outcome outcome_of_readings(const Readings& readings, const std::string& out, bool verbose,
                            const DisplayUnit& unit = {});

/// The same for fronts alone.
Outcome outcome_of_fronts(const Fronts& fronts, const std::string& out,
                          const DisplayUnit& unit = {});

}  // namespace versolay::cli
