// A scan that skips or repeats lines: a transport that stuttered, a buffer that overflowed, two
// pictures stitched by a scanner program.
#pragma once

#include <optional>
#include <vector>

#include "measure/affine_fit.h"
#include "measure/scanner_map.h"

namespace versolay {

struct ScanBreak {
  double step_mm = 0.0;  // displacement of the part after the break against the part before
};

/// Looks for a step in where the rings lie, across the rows and across the columns of the scan, and
/// for a strip of rings that were all left out for being off by the same.
///
/// At every place between two rings a line and a step are fitted to the eight rings on either side.
/// Smooth carriage motion makes many small steps; a break makes one outlier: more than 0.14 mm and
/// 9 robust standard deviations of all of them. A line or two at 300 dpi is not detected.
/// @param rings  those given to `map`, from the flattened picture.
std::optional<ScanBreak> find_scan_break(const std::vector<PagePair>& rings, const ScannerMap& map);

}  // namespace versolay
