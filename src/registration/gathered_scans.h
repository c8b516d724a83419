// Scans in a fixed order, each picture once, all of one paper and turn.
#pragma once

#include <string>
#include <vector>

#include "measure/side_reading.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

struct GatheredScans {
  Paper paper;  // of most of the scans; A4 without scans
  Turn turn = Turn::long_edge;
  std::vector<SideReading> sides;  // by name, so that the order on the command line does not matter
  std::vector<SideReading> of_other_targets;  // rejected (other_target)
  std::vector<RejectedInput> rejected;        // copies of a picture as well
};

GatheredScans gathered_scans(std::vector<SideReading> sides, std::vector<RejectedInput> rejected);

/// What is said of a scan of another paper or turn.
Refusal of_other_target(const SideReading& side);

/// By file names.
void sort_rejected(std::vector<RejectedInput>& rejected);

}  // namespace versolay
