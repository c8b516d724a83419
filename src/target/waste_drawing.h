// What is printed of a plan of the waste on each side.
#pragma once

#include "core/drawing.h"
#include "target/waste_plan.h"

namespace versolay {

/// Circles of the look-through marks on the recto; their dot is on the verso, straight behind.
struct LookThroughSize {
  double dot_radius_mm = 0.0;
  double inner_gap_mm = 0.0;  // between the rim of the dot and the smaller circle
  double outer_gap_mm = 0.0;  // and the larger circle
};

/// The outer gap is what the backs can be off without a sliver: their oversize, from 0.3 to 1 mm;
/// 0.5 mm where they have none. The inner gap is half of it.
LookThroughSize look_through_size(double oversize_mm);

/// The marks of one page: tags, codes, rings, and its half of the look-through marks.
Drawing waste_marks_drawing(const WastePlan& plan, const ProductionPage& page,
                            const LookThroughSize& look_through);

}  // namespace versolay
