#include "layout/cut_plan.h"

#include "core/expect.h"
#include "layout/findings.h"

namespace versolay {
namespace {

/// One direction of the block: cards side by side, cut by lines across it.
struct Row {
  int cards = 1;
  double card_mm = 0.0;
  double gutter_mm = 0.0;
  double length_mm() const { return cards * card_mm + (cards - 1) * gutter_mm; }
};

class Planner {
 public:
  Planner(CutPlan& plan, int blocks) : plan_(plan), blocks_(blocks) {}

  int add(Cut cut) {
    cut.number = static_cast<int>(plan_.cuts.size()) + 1;
    plan_.strokes += cut.strokes;
    plan_.cuts.push_back(std::move(cut));
    return plan_.cuts.back().number;
  }

  /// The inner cuts of one direction, the farthest from the fence first. `pieces` lie one after the
  /// other under the blade: strips that the cuts before have made.
  void divide(const Row& row, int edge, int pieces, Term piece) {
    for (int i = row.cards - 1; i >= 1; --i) {
      const double near = i * row.card_mm + (i - 1) * row.gutter_mm;
      if (row.gutter_mm > 0) {
        add({.what = findings::cut_far_side(piece, i + 1),
             .against_cut = edge,
             .by = CutBy::fence,
             .fence_mm = near + row.gutter_mm,
             .strokes = pieces * blocks_});
        add({.what = findings::cut_near_side(piece, i),
             .against_cut = edge,
             .by = CutBy::fence,
             .fence_mm = near,
             .strokes = pieces * blocks_});
      } else {
        add({.what = findings::cut_between(piece, i, i + 1),
             .against_cut = edge,
             .by = CutBy::fence,
             .fence_mm = near,
             .strokes = pieces * blocks_});
      }
    }
  }

 private:
  CutPlan& plan_;
  int blocks_;
};

}  // namespace

CutPlan plan_cuts(const CardGrid& grid, double stretch_x, double stretch_y) {
  expect(!grid.blocks.empty() && stretch_x > 0 && stretch_y > 0);
  const CardBlock& block = grid.blocks.front();
  const int blocks = static_cast<int>(grid.blocks.size());
  CutPlan plan;
  plan.stretch_x = stretch_x;
  plan.stretch_y = stretch_y;
  Planner planner(plan, blocks);

  if (blocks == 2) {
    plan.halving = planner.add({.what = findings::cut_halving(),
                                .by = CutBy::marks,
                                .strokes = 1,
                                .why = findings::cut_in_waste()});
  }
  const Row across{block.columns, grid.card.width_mm * stretch_x, grid.gutter_mm * stretch_x};
  const Row down{block.rows, grid.card.height_mm * stretch_y, grid.gutter_mm * stretch_y};
  // The first edge is a long one: a longer edge sets the square better.
  plan.first_edge_is_vertical = down.length_mm() >= across.length_mm();
  const bool vertical = plan.first_edge_is_vertical;
  const Row& along = vertical ? down : across;  // the direction of the first edge
  const Row& over = vertical ? across : down;   // the direction across it
  const Term edges[4] = {{vertical ? "left" : "top"},
                         {vertical ? "top" : "left"},
                         {vertical ? "right" : "bottom"},
                         {vertical ? "bottom" : "right"}};

  plan.first_edge = planner.add({.what = findings::cut_first_edge(edges[0]),
                                 .by = CutBy::marks,
                                 .strokes = blocks,
                                 .why = findings::cut_along_the_guides()});
  const int second = planner.add({.what = findings::cut_second_edge(edges[1]),
                                  .by = CutBy::marks,
                                  .strokes = blocks,
                                  .why = findings::cut_square_to(plan.first_edge)});
  planner.add({.what = findings::cut_opposite_edge(edges[2]),
               .against_cut = plan.first_edge,
               .by = CutBy::fence,
               .fence_mm = over.length_mm(),
               .strokes = blocks,
               .why = findings::cut_to_check()});
  planner.add({.what = findings::cut_opposite_edge(edges[3]),
               .against_cut = second,
               .by = CutBy::fence,
               .fence_mm = along.length_mm(),
               .strokes = blocks,
               .why = findings::cut_to_check()});
  planner.divide(over, plan.first_edge, 1, Term{vertical ? "column" : "row"});
  planner.divide(along, second, over.cards, Term{"card"});
  return plan;
}

}  // namespace versolay
