#include "layout/guides.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace versolay {
namespace {

constexpr double kLineMm = 0.15;
constexpr double kShortestMm = 1.0;
constexpr double kNumberMm = 2.2;  // size of the cut numbers
constexpr double kHalvingMm = 8.0;
constexpr double kTickMm = 0.07;
constexpr double kFinestCombMm = 0.2;

/// Offsets of the cut lines of one direction from the middle of the block.
std::vector<double> cut_lines(int cards, double card_mm, double gutter_mm) {
  std::vector<double> lines;
  const double pitch = card_mm + gutter_mm;
  for (int i = 0; i < cards; ++i) {
    const double centre = (i - (cards - 1) / 2.0) * pitch;
    if (i == 0 || gutter_mm > 0) lines.push_back(centre - card_mm / 2);
    lines.push_back(centre + card_mm / 2);
  }
  return lines;
}

Point<PageMm> point(bool vertical, double across, double along) {
  return vertical ? Point<PageMm>{across, along} : Point<PageMm>{along, across};
}

/// The guides of the lines of one direction, for one block. `vertical`: the lines are vertical and
/// are above and below the block.
class Direction {
 public:
  Direction(Guides& guides, bool vertical) : guides_(guides), vertical_(vertical) {}

  /// A guide along the line at `across`, from `inner` outward to `limit` at most.
  /// Returns where it ends.
  double guide(double across, double inner, double limit) {
    const double way = limit > inner ? 1.0 : -1.0;
    const double length = std::min(kGuideLengthMm, std::abs(limit - inner));
    const double end = inner + way * length;
    guides_.drawing.push_back(Polyline{
        {point(vertical_, across, inner), point(vertical_, across, end)}, kLineMm, false, 0.0, {}});
    return end;
  }

  /// Ticks beside a guide that runs from `inner` to `end`.
  void ticks(GuideTicks ticks, double across, double inner, double end) {
    const int count = static_cast<int>(std::lround(ticks.reach_mm() / ticks.step_mm));
    const bool stairs = ticks.step_mm < kFinestCombMm;
    for (int k = -count; k <= count; ++k) {
      if (k == 0) continue;  // the guide itself
      // Of the guide's length, from its inner end: a comb with longer teeth at every half
      // millimetre, or one stair after the other.
      const bool half_mm = std::abs(std::remainder(k * ticks.step_mm, 0.5)) < 1e-9;
      const double from = stairs ? (k + count) / (2.0 * count + 1) : 0.0;
      const double to = stairs ? (k + count + 1) / (2.0 * count + 1) : (half_mm ? 0.7 : 0.4);
      const double at = across + k * ticks.step_mm;
      guides_.drawing.push_back(Polyline{{point(vertical_, at, inner + from * (end - inner)),
                                          point(vertical_, at, inner + to * (end - inner))},
                                         kTickMm,
                                         false,
                                         0.0,
                                         {}});
    }
  }

  void number(int n, double across, double along, double beside) {
    const Point<PageMm> at = point(vertical_, across + beside, along);
    guides_.drawing.push_back(Text{.at = {at.x, at.y + 0.35 * kNumberMm},
                                   .utf8 = std::to_string(n),
                                   .size_mm = kNumberMm,
                                   .align = Align::centre});
  }

 private:
  Guides& guides_;
  bool vertical_;
};

struct Waste {
  double low_limit;   // where guides above (left of) the block must end
  double high_limit;  // below (right of)
};

/// Guides may use the waste up to the printable edge, or up to the middle of the gap to the block
/// next to this one.
Waste waste_of(const CardGrid& grid, const CardBlock& block, const PageRect& area, bool vertical) {
  const auto along = [vertical](const Point<RectoMm>& p) { return vertical ? p.y : p.x; };
  Waste waste{vertical ? area.top_mm : area.left_mm, vertical ? area.bottom_mm : area.right_mm};
  for (const CardBlock& other : grid.blocks) {
    const double middle = (along(block.centre) + along(other.centre)) / 2;
    if (along(other.centre) < along(block.centre)) {
      waste.low_limit = std::max(waste.low_limit, middle + kGuideClearMm);
    } else if (along(other.centre) > along(block.centre)) {
      waste.high_limit = std::min(waste.high_limit, middle - kGuideClearMm);
    }
  }
  return waste;
}

void add_guides(Guides& guides, const CardGrid& grid, const CardBlock& block, const CutPlan& plan,
                const PageRect& area, Reach front, GuideTicks ticks, bool vertical) {
  Direction direction(guides, vertical);
  const double centre_across = vertical ? block.centre.x : block.centre.y;
  const double centre_along = vertical ? block.centre.y : block.centre.x;
  const double half = (vertical ? block.height_mm : block.width_mm) / 2;
  const double clear = (vertical ? front.y_mm : front.x_mm) + kGuideClearMm;
  const Waste waste = waste_of(grid, block, area, vertical);
  const double low = centre_along - half - clear;
  const double high = centre_along + half + clear;
  const auto lines = cut_lines(vertical ? block.columns : block.rows,
                               vertical ? grid.card.width_mm : grid.card.height_mm, grid.gutter_mm);
  const bool first_direction = vertical == plan.first_edge_is_vertical;
  const int near_edge = plan.first_edge + (first_direction ? 0 : 1);

  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double across = centre_across + lines[i];
    const bool outer = i == 0 || i + 1 == lines.size();
    const int cut = i == 0 ? near_edge : near_edge + 2;
    // Towards the middle of the block, away from the number of the other guide at this corner.
    const double clear_of_ticks = i == 0 && ticks.step_mm > 0 ? ticks.reach_mm() : 0.0;
    const double beside = (i == 0 ? 1 : -1) * (0.8 * kNumberMm + 0.5 * clear_of_ticks);
    for (const auto& [inner, limit] : {std::pair{low, waste.low_limit}, {high, waste.high_limit}}) {
      const bool outward = (inner == low) == (limit < inner);
      if (!outward || std::abs(limit - inner) < kShortestMm) {
        guides.complete = false;
        continue;
      }
      const double end = direction.guide(across, inner, limit);
      if (i == 0 && ticks.step_mm > 0) direction.ticks(ticks, across, inner, end);
      if (outer) direction.number(cut, across, (inner + end) / 2, beside);
    }
  }
}

/// Dashed marks at both ends of the line that halves the sheet.
void add_halving(Guides& guides, const CardGrid& grid, int number, const PageRect& area) {
  const Point<RectoMm>& a = grid.blocks[0].centre;
  const Point<RectoMm>& b = grid.blocks[1].centre;
  const bool vertical = std::abs(a.x - b.x) > std::abs(a.y - b.y);
  Direction direction(guides, vertical);
  const double across = vertical ? (a.x + b.x) / 2 : (a.y + b.y) / 2;
  const double low = vertical ? area.top_mm : area.left_mm;
  const double high = vertical ? area.bottom_mm : area.right_mm;
  for (const auto& [from, to] : {std::pair{low, low + kHalvingMm}, {high, high - kHalvingMm}}) {
    guides.drawing.push_back(Polyline{
        {point(vertical, across, from), point(vertical, across, to)}, 0.25, false, 1.0, {}});
    direction.number(number, across, (from + to) / 2, 0.8 * kNumberMm);
  }
}

}  // namespace

Guides cut_guides(const CardGrid& grid, const CutPlan& plan, const PageRect& area, Reach front,
                  GuideTicks ticks) {
  Guides guides;
  for (const CardBlock& block : grid.blocks) {
    for (bool vertical : {true, false}) {
      add_guides(guides, grid, block, plan, area, front, ticks, vertical);
    }
  }
  if (plan.halving) add_halving(guides, grid, *plan.halving, area);
  return guides;
}

}  // namespace versolay
