// `correct --guides`: where every back belongs on the page, as a layer for an image editor.
#pragma once

#include <filesystem>
#include <optional>

#include "layout/artwork_place.h"
#include "layout/grid.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"
#include "versolay/result.h"

namespace versolay {

struct BackLayerRequest {
  PrinterProfile profile;
  CardSize card;
  std::optional<GridShape> grid;  // nullopt: as many as fit
  double gutter_mm = 0.0;
  Margins margins;
  std::optional<Reach> oversize;      // nullopt: from the profile
  std::optional<EdgeKind> back_edge;  // nullopt: not said; as a picture
  double ppi = kUsualPpi;             // of the user's page
  std::filesystem::path png;          // transparent, the whole page at ppi
  std::filesystem::path svg;          // the same, in mm
  bool replace = false;
};

struct BackLayerReport {
  CardGrid grid;
  Registration shift;  // what to do to the page of backs: R^-1 of the mean
  Reach oversize;      // per side
  int width_px = 0;
  int height_px = 0;
  bool legend = false;  // on the layer; false: the waste has no room for it
  Notices warnings;
};

/// Draws for every back: where the card will be cut (the front's position, seen from the back),
/// where its artwork must be placed so that it lands there, and how far it must extend beyond; the
/// shift, magnified twenty times, as an arrow; and a legend of the lines in the waste.
/// @fails  grid_too_large; whatever the advice on the oversize fails with.
/// Throws Error on a bad request or a failed write.
Result<BackLayerReport> draw_back_layer(const BackLayerRequest& request);

}  // namespace versolay
