#include "layout/placement.h"

#include <algorithm>
#include <array>
#include <limits>

#include "core/numbers.h"
#include "layout/findings.h"
#include "layout/grid.h"
#include "layout/slack.h"

namespace versolay {
namespace {

PageRect bounds(const std::array<Point<VersoMm>, 4>& corners) {
  const auto [left, right] = std::minmax({corners[0].x, corners[1].x, corners[2].x, corners[3].x});
  const auto [top, bottom] = std::minmax({corners[0].y, corners[1].y, corners[2].y, corners[3].y});
  return {left, top, right, bottom};
}

PageRect mapped(const Affine<VersoMm, VersoMm>& map, const PageRect& r) {
  return bounds({map({r.left_mm, r.top_mm}), map({r.right_mm, r.top_mm}),
                 map({r.left_mm, r.bottom_mm}), map({r.right_mm, r.bottom_mm})});
}

/// Moves along one axis of the recto page that keep both sides printable: low <= move <= high.
struct Moves {
  double low = 0.0;
  double high = 0.0;
  bool any() const { return low <= high + kSlackMm; }
  double least() const { return any() ? std::clamp(0.0, std::min(low, high), high) : 0.0; }
};

struct Span {
  double low;
  double high;
};

Moves moves(Span area, Span recto, Span verso, double verso_sign) {
  const Moves of_recto{area.low - recto.low, area.high - recto.high};
  Moves of_verso{area.low - verso.low, area.high - verso.high};
  if (verso_sign < 0) of_verso = {-of_verso.high, -of_verso.low};
  return {std::max(of_recto.low, of_verso.low), std::min(of_recto.high, of_verso.high)};
}

struct BothAxes {
  Moves x;
  Moves y;
};

BothAxes possible_moves(const PlacementRequest& r, Reach back) {
  const TurnAxis axis = turn_axis(r.turn, r.paper);
  const PageRect area = printable_area(r.paper, r.margins);
  const PageRect recto = recto_extent(r.grid, r.front);
  const Reach moved{back.x_mm + r.cards_moved_mm, back.y_mm + r.cards_moved_mm};
  const PageRect verso = mapped(r.page_from_wanted, verso_extent(r.grid, axis, moved));
  const Eigen::Vector2d signs = verso_from_recto(axis).linear().diagonal();
  return {moves({area.left_mm, area.right_mm}, {recto.left_mm, recto.right_mm},
                {verso.left_mm, verso.right_mm}, signs.x()),
          moves({area.top_mm, area.bottom_mm}, {recto.top_mm, recto.bottom_mm},
                {verso.top_mm, verso.bottom_mm}, signs.y())};
}

/// The largest reach in 0..wanted for which `fits(reach)`; 0 when there is none.
template <class Fits>
double largest(double wanted, const Fits& fits) {
  if (fits(wanted)) return wanted;
  double low = 0.0;
  double high = wanted;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (fits(middle) ? low : high) = middle;
  }
  return low;
}

Notice moved_notice(const Eigen::Vector2d& by) {
  const Term across{by.x() > 0 ? "right" : "left"};
  const Term along{by.y() > 0 ? "down" : "up"};
  const Length across_mm{std::abs(by.x())};
  const Length along_mm{std::abs(by.y())};
  if (by.y() == 0) return findings::block_moved(across_mm, across);
  if (by.x() == 0) return findings::block_moved(along_mm, along);
  return findings::block_moved_both_ways(across_mm, across, along_mm, along);
}

Refusal not_printable(const PlacementRequest& r, const BothAxes& m) {
  const double x = std::max(0.0, m.x.low - m.x.high);
  const double y = std::max(0.0, m.y.low - m.y.high);
  const bool corrected =
      !(r.page_from_wanted.linear().isIdentity() && r.page_from_wanted.offset().isZero());
  const bool bleed = r.front.x_mm > 0 || r.front.y_mm > 0;
  const Term cards{corrected && bleed ? "with bleed, corrected"
                   : bleed            ? "with bleed"
                                      : "corrected"};
  if (y == 0) return findings::too_wide_to_print(cards, Length{x}, r.paper.name);
  if (x == 0) return findings::too_high_to_print(cards, Length{y}, r.paper.name);
  return findings::too_large_to_print(cards, Length{x}, Length{y}, r.paper.name);
}

}  // namespace

PageRect printable_area(const Paper& paper, const Margins& margins) {
  const double x = paper.width_mm / 2;
  const double y = paper.height_mm / 2;
  return {-x + margins.left_mm, -y + margins.top_mm, x - margins.right_mm, y - margins.bottom_mm};
}

PageRect recto_extent(const CardGrid& grid, Reach reach) {
  constexpr double kFar = std::numeric_limits<double>::max();
  PageRect all{kFar, kFar, -kFar, -kFar};
  for (const CardBlock& b : grid.blocks) {
    all.left_mm = std::min(all.left_mm, b.centre.x - b.width_mm / 2 - reach.x_mm);
    all.top_mm = std::min(all.top_mm, b.centre.y - b.height_mm / 2 - reach.y_mm);
    all.right_mm = std::max(all.right_mm, b.centre.x + b.width_mm / 2 + reach.x_mm);
    all.bottom_mm = std::max(all.bottom_mm, b.centre.y + b.height_mm / 2 + reach.y_mm);
  }
  return all;
}

PageRect verso_extent(const CardGrid& grid, TurnAxis axis, Reach reach) {
  return mirrored(recto_extent(grid, reach), axis);
}

Result<Placement> place_on_paper(const PlacementRequest& r) {
  const BothAxes without_oversize = possible_moves(r, {});
  if (!without_oversize.x.any() || !without_oversize.y.any()) {
    return not_printable(r, without_oversize);
  }
  Placement placement;
  placement.back.x_mm = largest(r.back.x_mm, [&](double x) {
    return possible_moves(r, {x, r.back.y_mm}).x.any();
  });
  placement.back.y_mm = largest(r.back.y_mm, [&](double y) {
    return possible_moves(r, {placement.back.x_mm, y}).y.any();
  });
  const BothAxes m = possible_moves(r, placement.back);
  placement.moved_mm = {m.x.least(), m.y.least()};
  if (placement.moved_mm.cwiseAbs().maxCoeff() <= kSlackMm) placement.moved_mm.setZero();
  placement.grid = moved(r.grid, placement.moved_mm);

  if (!placement.moved_mm.isZero()) placement.remedies.push_back(moved_notice(placement.moved_mm));
  if (placement.back.x_mm < r.back.x_mm) {
    placement.remedies.push_back(findings::oversize_reduced(
        Term{"left and right"}, Length{r.back.x_mm}, Length{placement.back.x_mm}));
  }
  if (placement.back.y_mm < r.back.y_mm) {
    placement.remedies.push_back(findings::oversize_reduced(
        Term{"top and bottom"}, Length{r.back.y_mm}, Length{placement.back.y_mm}));
  }
  return placement;
}

}  // namespace versolay
