// The legend of a layer, in the waste of its page.
#pragma once

#include <string>
#include <vector>

#include "imposition/layer.h"

namespace versolay {

/// A line as it looks on the layer, or an arrow, and what it means.
struct LayerLegendItem {
  LineStyle style;
  std::string words;
  bool arrow = false;
};

/// Adds a title and the items along the edge of the page with the most room for them: as large as
/// they fit in beside `drawn` (what the lines take), never over it and 3 mm clear of the edges.
/// Along a vertical edge they read downwards.
/// @return false, and nothing is added, when they would be smaller than can be read.
bool add_layer_legend(GuidesLayer& layer, const std::string& title,
                      const std::vector<LayerLegendItem>& items, const PageRect& drawn);

/// The head of an arrow whose shaft ends at `tip`.
LayerLine arrow_head(const Point<PageMm>& from, const Point<PageMm>& tip, const LineStyle& style);

}  // namespace versolay
