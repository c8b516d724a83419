// Fronts alone: the position of each print on its sheet.
#pragma once

#include <vector>

#include "core/fronts.h"
#include "measure/side_reading.h"

namespace versolay {

/// From scans of fronts, several of one front where there are; all four edges of the paper must
/// show. Rejects backs, a front of another paper or turn than most, a side of which a part is
/// missing, photographs (edges are read to 0.1 mm only), and edges that cannot be read.
/// Accuracy: 0.02 to 0.04 mm, one sigma, at 300 dpi (tests/bench/README.md).
Fronts front_lays(std::vector<SideReading> sides, std::vector<RejectedInput> rejected);

}  // namespace versolay
