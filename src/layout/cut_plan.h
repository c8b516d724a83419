// The order of the cuts that turn a printed sheet into cards.
#pragma once

#include <optional>
#include <vector>

#include "core/drawing.h"
#include "versolay/finding.h"
#include "versolay/layout.h"

namespace versolay {

/// How a cut is positioned.
enum class CutBy {
  marks,  // the printed guides, under the blade
  fence,  // a finished edge against the fence, the blade `fence_mm` away from it
};

struct Cut {
  int number = 0;  // 1, 2, 3, ...; both halves of a sheet have the same cuts, with the same numbers
  Finding what{};  // "left edge of the block"
  std::optional<int> against_cut{};  // the cut whose edge is against the fence; none by marks
  CutBy by = CutBy::marks;
  double fence_mm = 0.0;
  int strokes = 1;               // per sheet
  std::optional<Finding> why{};  // a remark
};

struct CutPlan {
  std::vector<Cut> cuts;
  int strokes = 0;         // per sheet
  double stretch_x = 1.0;  // of the fence settings, see plan_cuts
  double stretch_y = 1.0;
  std::optional<int> halving;  // number of the cut that halves the sheet
  int first_edge = 0;          // numbers of the four outer edges, in their order
  bool first_edge_is_vertical = true;
};

/// Front side up all the time. The sheet is halved in the waste where it has two blocks; then the
/// outer edges: a long one by the marks, a short one by the marks and square to it, the opposite
/// two by the fence; then strips, then cards. The same finished edge stays at the fence, and the
/// far cut is made first, so that no error adds up.
/// Strokes for n cards in one block: 4 + (n - 1) abutted, 4 + 2 (n - 1) with gutters.
/// `stretch_x`, `stretch_y`: measured size of the finished (for instance laminated) sheet over its
/// printed size; the settings are multiplied by them.
CutPlan plan_cuts(const CardGrid& grid, double stretch_x = 1.0, double stretch_y = 1.0);

}  // namespace versolay
