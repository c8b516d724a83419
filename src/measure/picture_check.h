// Explains why no target was found in a picture.
#pragma once

#include <vector>

#include "measure/tags.h"
#include "scan/scan.h"
#include "versolay/result.h"

namespace versolay {

/// The tags of a page, in an image no larger than it takes. `dpi_x`, `dpi_y` of the scan serve as
/// a hint of its proportions only.
std::vector<TagSighting> find_page_tags(const Scan& scan);

/// The tags of further passes. They are smaller, and looked for in a finer image.
std::vector<PassTagSighting> find_page_pass_tags(const Scan& scan);

/// For a picture with fewer than two tags: what it shows instead.
/// @return a refusal with one of the codes negative, mirrored, dark_picture, blank_page, no_marks.
Refusal why_no_target(const Scan& scan);

}  // namespace versolay
