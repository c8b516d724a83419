// How many cards fit on a sheet, and where.
#pragma once

#include <optional>
#include <string>

#include "versolay/layout.h"
#include "versolay/result.h"

namespace versolay {

struct GridShape {
  int columns = 0;
  int rows = 0;
};

struct GridRequest {
  Paper paper;
  CardSize card;                   // upright
  std::optional<GridShape> shape;  // of the whole page; nullopt: as many cards as fit
  double gutter_mm = 0.0;
  Margins margins;            // what the printer leaves white, on both sides
  std::optional<int> blocks;  // 1 or 2; nullopt: 2 on A3 and Tabloid when no card is lost by it
  double bleed_mm = 0.0;      // ink round a block that has to fit as well; not with a shape
};

/// The cards inside the printable area, centred: as one block on the page, or as one block on each
/// half of the page (halved across its longer side), so that the cut that halves the sheet falls
/// in waste. Cards lie sideways when more of them fit that way, or when the shape needs it.
/// @fails  grid_too_large, with the room that there is; grid_not_halved.
/// Throws Error when a size, the gutter, the margin or the number of blocks makes no sense.
Result<CardGrid> fit_grid(const GridRequest& request);

/// "5 mm", or the four of them.
std::string margins_in_words(const Margins& margins);

/// The same grid, moved on the recto page.
CardGrid moved(CardGrid grid, const Eigen::Vector2d& by_mm);

}  // namespace versolay
