// From a design and a paper to the places of all marks and holes, and their JSON file.
#pragma once

#include "core/json.h"
#include "target/target_geometry.h"

namespace versolay {

/// The geometry of the target for this paper and turn. A landscape page is the transposed
/// portrait design: (x, y) -> (y, x), so that the punch is still used on the short edges.
/// Rings of the verso are directly behind those of the recto; tags and codes have the same
/// places on both sides, each in the view of its own side.
/// @param passes  of a sheet through the printer, on each side: 1 to kMostPasses.
/// Throws Error when no design fits the paper.
TargetGeometry target_geometry(const Paper& paper, Turn turn, int passes = 1);

/// {schema, paper_mm, turn, marks:[{id, side, x_mm, y_mm, kind, pass (from 2 on)}],
///  holes:[{id, x_mm, y_mm, kind, clear_radius_mm}], verniers:[{id, direction, x_mm, y_mm}]};
/// holes in the recto view, verniers, which are read from the back, in the verso view.
Json geometry_json(const TargetGeometry& geometry);

}  // namespace versolay
