#include "imposition/back_layer_drawing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "imposition/layer_legend.h"

namespace versolay {
namespace {

// One dark, one middle, one light, and each with a dash of its own: told apart without colour too.
constexpr std::array<std::uint8_t, 3> kLightHalo{255, 255, 255};
constexpr std::array<std::uint8_t, 3> kDarkHalo{16, 12, 4};
const LineStyle kCutStyle{"cut", {0, 60, 66}, kLightHalo, 0.15, 4.0, 1.6};
const LineStyle kPlaceStyle{"place-of-the-artwork", {132, 38, 20}, kLightHalo, 0.15, 0.0, 0.0};
const LineStyle kReachStyle{"reach-of-the-artwork", {240, 176, 40}, kDarkHalo, 0.15, 0.7, 0.9};
const LineStyle kShiftStyle{"shift", {132, 38, 20}, kLightHalo, 0.4, 0.0, 0.0};
constexpr double kShortestArrowMm = 1.0;

using Corners = std::array<Point<PageMm>, 4>;  // clockwise from the upper left

Corners corners_of(const PageRect& r, const Affine<VersoMm, VersoMm>& map) {
  const auto at = [&](double x, double y) { return relabel<PageMm>(map(Point<VersoMm>{x, y})); };
  return {at(r.left_mm, r.top_mm), at(r.right_mm, r.top_mm), at(r.right_mm, r.bottom_mm),
          at(r.left_mm, r.bottom_mm)};
}

/// The lines of one style: an edge that two cards share is drawn once.
class EdgeLines {
 public:
  EdgeLines(GuidesLayer& layer, const LineStyle& style) : layer_(layer), style_(style) {}

  void add(Point<PageMm> a, Point<PageMm> b) {
    if (std::pair(b.y, b.x) < std::pair(a.y, a.x)) std::swap(a, b);
    const auto micrometres = [](double mm) { return std::lround(1000 * mm); };
    const std::array key{micrometres(a.x), micrometres(a.y), micrometres(b.x), micrometres(b.y)};
    if (drawn_.insert(key).second) layer_.lines.push_back({style_, {a, b}, false});
  }
  void add(const Corners& corners) {
    for (std::size_t i = 0; i < 4; ++i) add(corners[i], corners[(i + 1) % 4]);
  }

 private:
  GuidesLayer& layer_;
  const LineStyle& style_;
  std::set<std::array<long, 4>> drawn_;
};

/// The edges of `ink` that lie beyond the card: where cards touch, there is no beyond.
void add_reach(EdgeLines& lines, const CardPlace& place, const Affine<VersoMm, VersoMm>& map) {
  constexpr double kNothingMm = 0.01;
  const PageRect& ink = place.ink;
  const PageRect& cell = place.cell;
  const Corners c = corners_of(ink, map);
  if (cell.top_mm - ink.top_mm > kNothingMm) lines.add(c[0], c[1]);
  if (ink.right_mm - cell.right_mm > kNothingMm) lines.add(c[1], c[2]);
  if (ink.bottom_mm - cell.bottom_mm > kNothingMm) lines.add(c[2], c[3]);
  if (cell.left_mm - ink.left_mm > kNothingMm) lines.add(c[3], c[0]);
}

/// What the lines take of the page.
PageRect extent_of(const GuidesLayer& layer) {
  const Point<PageMm>& first = layer.lines.front().points.front();
  PageRect extent{first.x, first.y, first.x, first.y};
  for (const LayerLine& line : layer.lines) {
    for (const Point<PageMm>& p : line.points) {
      extent = {std::min(extent.left_mm, p.x), std::min(extent.top_mm, p.y),
                std::max(extent.right_mm, p.x), std::max(extent.bottom_mm, p.y)};
    }
  }
  return extent;
}

std::vector<LayerLegendItem> legend_of(const BackLayerWords& words, bool arrow) {
  std::vector<LayerLegendItem> items;
  const auto add = [&](const LineStyle& style, const std::string& text, bool is_arrow) {
    if (!text.empty()) items.push_back({style, text, is_arrow});
  };
  add(kCutStyle, words.cut, false);
  add(kPlaceStyle, words.place, false);
  add(kReachStyle, words.reach, false);
  if (arrow) add(kShiftStyle, words.shift, true);
  return items;
}

}  // namespace

BackLayerDrawing back_layer_drawing(const PrinterProfile& profile, const CardGrid& grid,
                                    const Reach& oversize, const BackLayerWords& words) {
  GuidesLayer layer{profile.paper, {}, {}};
  const auto page_from_wanted = profile.mean.page_from_wanted();
  const std::vector<CardPlace> places =
      verso_places(grid, turn_axis(profile.turn, profile.paper), oversize);
  EdgeLines reach(layer, kReachStyle);
  for (const CardPlace& place : places) add_reach(reach, place, page_from_wanted);
  EdgeLines cut(layer, kCutStyle);
  for (const CardPlace& place : places) cut.add(corners_of(place.cell, {}));
  EdgeLines wanted(layer, kPlaceStyle);
  for (const CardPlace& place : places) wanted.add(corners_of(place.cell, page_from_wanted));
  const PageRect drawn = extent_of(layer);

  const Registration shift = registration_from(page_from_wanted);
  const Point<PageMm> tip{kShiftArrowScale * shift.dx_mm, kShiftArrowScale * shift.dy_mm};
  const bool arrow = tip.vec().norm() >= kShortestArrowMm;
  if (arrow) {
    layer.lines.push_back({kShiftStyle, {{0, 0}, tip}, false});
    layer.lines.push_back(arrow_head({0, 0}, tip, kShiftStyle));
  }
  const bool legend = add_layer_legend(layer, words.title, legend_of(words, arrow), drawn);
  return {std::move(layer), legend};
}

}  // namespace versolay
