#include "app/back_layer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "core/files.h"
#include "core/numbers.h"
#include "imposition/layer.h"
#include "imposition/layer_legend.h"
#include "imposition/shared_cuts.h"
#include "profile/advise.h"
#include "profile/profile_match.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

// One dark, one middle, one light, and each with a dash of its own: told apart without colour too.
constexpr std::array<std::uint8_t, 3> kLightHalo{255, 255, 255};
constexpr std::array<std::uint8_t, 3> kDarkHalo{16, 12, 4};
const LineStyle kCutStyle{"cut", {0, 60, 66}, kLightHalo, 0.15, 4.0, 1.6};
const LineStyle kPlaceStyle{"place-of-the-artwork", {132, 38, 20}, kLightHalo, 0.15, 0.0, 0.0};
const LineStyle kReachStyle{"reach-of-the-artwork", {240, 176, 40}, kDarkHalo, 0.15, 0.7, 0.9};
const LineStyle kShiftStyle{"shift", {132, 38, 20}, kLightHalo, 0.4, 0.0, 0.0};
constexpr double kArrowScale = 20.0;
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

std::vector<LayerLegendItem> legend_of(const BackLayerRequest& r, const BackLayerReport& report,
                                       bool arrow) {
  const double oversize_mm = std::max(report.oversize.x_mm, report.oversize.y_mm);
  const double oversize_px = std::ceil(artwork_px_from_mm(oversize_mm, r.ppi) - 1e-6);
  const std::string reach =
      oversize_length_words(oversize_mm, static_cast<int>(oversize_px), r.ppi);
  std::vector<LayerLegendItem> items = {{kCutStyle, tr("the cards are cut here"), false},
                                        {kPlaceStyle, tr("put the back images here"), false}};
  if (oversize_mm > 0) {
    items.push_back({kReachStyle,
                     r.gutter_mm > 0 ? tr("and let them reach {} beyond", reach)
                                     : tr("and let them reach {} beyond the outer edges", reach),
                     false});
  }
  if (arrow) {
    items.push_back({kShiftStyle,
                     tr("all backs move {}; arrow: {} times as long",
                        shift_in_words(report.shift.dx_mm, report.shift.dy_mm, r.ppi), kArrowScale),
                     true});
  }
  return items;
}

GuidesLayer layer_of(const BackLayerRequest& r, BackLayerReport& report) {
  GuidesLayer layer{r.profile.paper, {}, {}};
  const auto page_from_wanted = r.profile.mean.page_from_wanted();
  const std::vector<CardPlace> places =
      verso_places(report.grid, turn_axis(r.profile.turn, r.profile.paper), report.oversize);
  EdgeLines reach(layer, kReachStyle);
  for (const CardPlace& place : places) add_reach(reach, place, page_from_wanted);
  EdgeLines cut(layer, kCutStyle);
  for (const CardPlace& place : places) cut.add(corners_of(place.cell, {}));
  EdgeLines wanted(layer, kPlaceStyle);
  for (const CardPlace& place : places) wanted.add(corners_of(place.cell, page_from_wanted));
  const PageRect drawn = extent_of(layer);

  const Eigen::Vector2d shift(report.shift.dx_mm, report.shift.dy_mm);
  const Point<PageMm> tip = Point<PageMm>::from(kArrowScale * shift);
  const bool arrow = tip.vec().norm() >= kShortestArrowMm;
  if (arrow) {
    layer.lines.push_back({kShiftStyle, {{0, 0}, tip}, false});
    layer.lines.push_back(arrow_head({0, 0}, tip, kShiftStyle));
  }
  report.legend =
      add_layer_legend(layer, tr("Backs, seen from the back."), legend_of(r, report, arrow), drawn);
  return layer;
}

/// What is lost where backs that are pictures end half way to their neighbour.
std::optional<Notice> lost_between_cards(const BackLayerRequest& r, const BackLayerReport& report) {
  if (r.back_edge && *r.back_edge != EdgeKind::picture) return std::nullopt;
  AdviceRequest request;
  request.grid = report.grid;
  request.ppi = r.ppi;
  const auto cuts = shared_cuts(
      r.profile, request, r.profile.mean,
      verso_places(report.grid, turn_axis(r.profile.turn, r.profile.paper), report.oversize),
      report.oversize);
  if (!cuts) return std::nullopt;
  return remark_on(*cuts, std::max(report.oversize.x_mm, report.oversize.y_mm), r.gutter_mm,
                   request.confidence);
}

}  // namespace

Result<BackLayerReport> draw_back_layer(const BackLayerRequest& r) {
  check_outputs({r.png, r.svg}, r.replace);
  if (!(r.ppi >= 30 && r.ppi <= 1200)) {
    throw Error("--ppi " + format_number(r.ppi, 2), tr("must be from 30 to 1200 pixels per inch"));
  }
  BackLayerReport report;
  const Result<CardGrid> grid =
      fit_grid({r.profile.paper, r.card, r.grid, r.gutter_mm, r.margins, std::nullopt});
  if (!grid) return grid.refusal();
  report.grid = grid.value();
  report.shift = registration_from(r.profile.mean.page_from_wanted());
  if (r.oversize) {
    report.oversize = *r.oversize;
  } else {
    AdviceRequest request;
    request.grid = report.grid;
    request.ppi = r.ppi;
    const Result<Advice> advice = advise(r.profile, request);
    if (!advice) return advice.refusal();
    report.oversize = {advice.value().oversize.x_mm, advice.value().oversize.y_mm};
    report.warnings = advice.value().warnings;
  }
  for (const Notice& remark : remarks_on(r.profile)) report.warnings.push_back(remark);
  if (const auto lost = lost_between_cards(r, report)) report.warnings.push_back(*lost);
  const GuidesLayer layer = layer_of(r, report);
  const RgbaImage picture = picture_of(layer, r.ppi);
  report.width_px = picture.width_px;
  report.height_px = picture.height_px;
  write_file_atomically(r.png, encode_png(picture, r.ppi), r.replace);
  write_file_atomically(r.svg, svg_of(layer), r.replace);
  return report;
}

}  // namespace versolay
