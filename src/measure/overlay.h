// An annotated picture of a scan: what was found, what was left out, and why.
#pragma once

#include <string>

#include "measure/side_reading.h"
#include "scan/scan.h"
#include "versolay/result.h"

namespace versolay {

/// PNG bytes of the scan, page upright, at most 1600 pixels on its long side, with a legend:
///   circle        a ring that was used; its arrow: how far it lies from where a straight scanner
///                 would show it, magnified (the factor stands in the legend)
///   cross         a ring that was left out, because it disagrees with its neighbours
///   named circle  a hole; named bar: an edge of the paper; named box: could not be read
/// Shapes tell everything; colours only help. For a refused scan: the scan and the reason.
std::string overlay_png(const Scan& scan, const Result<SideReading>& reading);

}  // namespace versolay
