// All rings that a picture shows of a page.
#pragma once

#include <optional>
#include <vector>

#include "measure/carriage_jerk.h"
#include "measure/page_view.h"
#include "measure/sampler.h"
#include "measure/tags.h"
#include "target/target_geometry.h"

namespace versolay {

struct PageRings {
  std::vector<PagePair> rings;
  std::vector<RingStretch> stretches;  // of each ring
  std::vector<Eigen::Vector2d> tails;  // of each ring
  std::optional<PageView> view;        // through them
};

/// Looks for them from the tags, first as a scanner shows them; when many are missing then, as a
/// camera does.
PageRings find_page_rings(const Sampler& image, const TargetGeometry& geometry, Side side,
                          const std::vector<TagSighting>& tags);

/// Nominal places of the rings that the picture does not show, or not wholly.
std::vector<Point<PageMm>> rings_outside(const Sampler& image, const TargetGeometry& geometry,
                                         Side side, const PageView& view);

}  // namespace versolay
