// Places of the marks in the waste of a production sheet, from the few numbers that its code holds.
//
// The rings form a lattice: along the edges of the paper, evenly from corner to corner and at least
// kLeastWastePitchMm apart, their rims `frame_mm` from the edge. Cards, guides and words occupy
// some of the places; a reader looks at all of them. So a sheet can be read without an accompanying
// file, and by any later version, whatever the layout around the marks. The lattice of older sheets
// is also supported: see WasteLattice.
#pragma once

#include <vector>

#include "target/waste_code.h"

namespace versolay {

// Smaller than the marks of a target, to fit into 3.6 mm of waste. No radius is a multiple of
// 1/300, 1/360 or 1/600 inch (see calib_targets/README.md).
inline constexpr RingSize kWasteRing{1.425, 1.001};
inline constexpr double kWasteRingClearMm = 0.75;  // white round a ring that its finder looks at
inline constexpr double kWasteTagModuleMm = 0.6;
inline constexpr double kWasteCodeModuleMm = 0.33;
// Tags and codes with their white, side by side along the edge, the code on the tag's inner side.
inline constexpr double kWasteTagCellMm = 6.0;
inline constexpr double kWasteCodeLengthMm = 12.6;
inline constexpr double kWasteCodeFromTagMm = (kWasteTagCellMm + kWasteCodeLengthMm) / 2;
inline constexpr double kLeastWastePitchMm = 7.617;

/// A place for a ring on the recto, and the edge that it is on.
struct WastePlace {
  std::string id;  // "top-7"
  Point<RectoMm> at;
  Eigen::Vector2d outward{0.0, 0.0};
  double along_mm = 0.0;  // from the middle of the edge
  bool corner = false;    // the first and the last: one place with that of the edge beside it
};

/// All places along an edge ("top", "bottom", "left", "right"), from one end to the other.
std::vector<WastePlace> waste_places(const Paper& paper, double frame_mm, const std::string& edge,
                                     WasteLattice lattice = WasteLattice::from_corners);

/// Every possible place of a ring, the tags, and places along all four edges of the paper, on both
/// sides: rings of the verso directly behind those of the recto. Codes are not listed: they are
/// found beside the tags.
TargetGeometry waste_geometry(const Paper& paper, Turn turn, const WasteLayout& layout);

}  // namespace versolay
