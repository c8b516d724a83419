// What one scan shows of the further passes of a sheet through the printer.
#pragma once

#include <vector>

#include "measure/page_view.h"
#include "measure/sampler.h"
#include "measure/side_features.h"
#include "measure/tags.h"
#include "scan/scan.h"
#include "target/target_geometry.h"
#include "versolay/result.h"

namespace versolay {

/// Fewer do not determine the position of a pass.
inline constexpr int kLeastPassRings = 10;

struct PassesSeen {
  std::vector<SeenFeature> rings;  // named by pass_ring_id(), of all passes that can be read
  Notices warnings;                // passes that are missing, doubled, turned, on the wrong side
};

/// Looks for the tag of every further pass, and from there for its rings.
/// @param tags      of further passes, as find_page_pass_tags() has them.
/// @param view      of the first pass. A photograph is not read: passes_need_scans.
/// @param ring_sd_mm  of one ring, one axis, as the rings of the first pass have it.
PassesSeen find_passes(const Scan& scan, const Sampler& image, const TargetGeometry& geometry,
                       Side side, const std::vector<PassTagSighting>& tags, const PageView& view,
                       double ring_sd_mm);

}  // namespace versolay
