// Whether the rings around a hole can be trusted.
#pragma once

#include <string>
#include <vector>

#include "measure/page_view.h"
#include "measure/scanner_map.h"
#include "measure/side_features.h"
#include "versolay/result.h"

namespace versolay {

/// Looks for holes whose rings disagree with each other, or had to be left out: smeared ink, or
/// paper that is not flat. The worst of these holes are taken out of `found` and become misses.
/// @return a warning (marks_smeared) for each hole that was looked at twice.
Notices check_marks_near_holes(const std::string& scan_name, const std::vector<PagePair>& rings,
                               const ScannerMap& map, const PageView& view, SeenFeatures& found);

}  // namespace versolay
