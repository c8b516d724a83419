// Coarse search: the identity tags of a page.
#pragma once

#include <array>
#include <vector>

#include "measure/reduce.h"
#include "scan/scan.h"
#include "target/identity.h"
#include "versolay/frames.h"

namespace versolay {

struct TagSighting {
  TagMeaning meaning;
  /// Corners of the black square as printed: top left, top right, bottom right, bottom left.
  /// Good to about a quarter of a pixel of the reduced image.
  std::array<Point<ScanPx>, 4> corners;

  Point<ScanPx> centre() const;
  /// Of the black square, as printed; the same in every design.
  double side_mm() const;
  /// Pixels per mm along the rows (x) and the columns (y) of the scan, by the tag's own size: good
  /// to a few per cent.
  Eigen::Vector2d px_per_mm() const;
};

/// The tag of a further pass.
struct PassTagSighting {
  PassTagMeaning meaning;
  std::array<Point<ScanPx>, 4> corners;  // as those of TagSighting

  Point<ScanPx> centre() const;
};

/// Finds the tags of further passes in an image that was reduced.
std::vector<PassTagSighting> find_pass_tags(const GreyImage& reduced, Reduction by);

/// Finds the tags in an image that was reduced; places are those of the full image.
/// Tags of other families, and numbers that no page of ours carries, are passed over. A tag with
/// one wrong module is still read.
std::vector<TagSighting> find_tags(const GreyImage& reduced, Reduction by);

}  // namespace versolay
