// Short lines in the waste of the front page, where the blade goes.
#pragma once

#include "core/drawing.h"
#include "layout/artwork_place.h"
#include "layout/cut_plan.h"

namespace versolay {

inline constexpr double kGuideClearMm = 1.0;   // between the bleed and a guide
inline constexpr double kGuideLengthMm = 5.0;  // where there is room for it

struct Guides {
  Drawing drawing;       // page millimetres of the recto
  bool complete = true;  // false: an edge has less than 2 mm of waste for a guide
};

/// Ticks beside the guides of the first two edges, `step_mm` apart, so that a sheet whose back is
/// known to be off can be cut beside its guides by a stated amount. The other cuts follow by the
/// fence. Steps of 0.2 mm and more: a comb to 1 mm on both sides; finer ones: stairs to 0.5 mm, one
/// tick a stair, because a printer cannot keep such lines apart side by side.
struct GuideTicks {
  double step_mm = 0.0;  // 0: none
  double reach_mm() const { return step_mm >= 0.2 ? 1.0 : 0.5; }
};

/// Guides at both ends of every line that a blade follows, clear of the bleed (`front`), inside
/// `area` (the printable area, less whatever else is there), numbered as in the plan where they set
/// a cut. Dashed marks in the middle of the waste between two blocks show the cut that halves the
/// sheet.
Guides cut_guides(const CardGrid& grid, const CutPlan& plan, const PageRect& area, Reach front,
                  GuideTicks ticks = {});

}  // namespace versolay
