// Where every back belongs on its page, as lines: what the layer for an image editor shows.
#pragma once

#include <string>

#include "imposition/layer.h"
#include "layout/grid.h"
#include "versolay/printer_profile.h"

namespace versolay {

inline constexpr double kShiftArrowScale = 20.0;  // the arrow is so many times as long as the shift

/// Of the legend. An empty text leaves its line out.
struct BackLayerWords {
  std::string title;
  std::string cut;
  std::string place;
  std::string reach;
  std::string shift;  // used where an arrow is drawn
};

struct BackLayerDrawing {
  GuidesLayer layer;
  bool legend = false;  // false: the waste has no room for it
};

/// For every back: where its card is cut (the front's position, seen from the back), where its
/// artwork must be placed to land there, and how far it must extend; and the shift of them all as
/// an arrow, where it is long enough to see.
BackLayerDrawing back_layer_drawing(const PrinterProfile& profile, const CardGrid& grid,
                                    const Reach& oversize, const BackLayerWords& words);

}  // namespace versolay
