// Coarse search: the identity tags of a page.
#pragma once

#include <array>
#include <vector>

#include "scan/scan.h"
#include "target/identity.h"
#include "versolay/frames.h"

namespace versolay {

struct TagSighting {
  TagMeaning meaning;
  /// Corners of the black square as printed: top left, top right, bottom right, bottom left.
  /// Good to about a quarter of a pixel of the reduced image.
  std::array<Point<ScanPx>, 4> corners;
};

/// Finds the tags in an image that was reduced by `factor`; places are those of the full image.
/// Tags of other families, and numbers that no page of ours carries, are passed over. A tag with
/// one wrong module is still read.
std::vector<TagSighting> find_tags(const GreyImage& reduced, int factor);

}  // namespace versolay
