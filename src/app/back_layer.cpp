#include "app/back_layer.h"

#include "core/files.h"
#include "core/numbers.h"
#include "imposition/layer.h"
#include "profile/advise.h"
#include "profile/profile_match.h"
#include "words/direction_words.h"
#include "words/translation.h"

namespace versolay {
namespace {

using Colour = std::array<std::uint8_t, 3>;

// Apart in lightness too, so that they can be told without colour: dark, middle, light.
constexpr Colour kCutColour{40, 40, 40};
constexpr Colour kPlaceColour{200, 0, 120};
constexpr Colour kReachColour{0, 170, 220};
constexpr double kArrowScale = 20.0;

using Corners = std::vector<Point<PageMm>>;

Corners corners_of(const PageRect& r, const Affine<VersoMm, VersoMm>& map) {
  Corners corners;
  for (const Point<VersoMm>& p : {Point<VersoMm>{r.left_mm, r.top_mm},
                                  {r.right_mm, r.top_mm},
                                  {r.right_mm, r.bottom_mm},
                                  {r.left_mm, r.bottom_mm}}) {
    corners.push_back(relabel<PageMm>(map(p)));
  }
  return corners;
}

/// From the middle of the page, with a head.
void add_arrow(GuidesLayer& layer, const Eigen::Vector2d& shift_mm) {
  const Eigen::Vector2d tip = kArrowScale * shift_mm;
  if (tip.norm() < 1.0) return;
  const Eigen::Vector2d way = tip.normalized();
  const Eigen::Vector2d across(-way.y(), way.x());
  const auto point = [](const Eigen::Vector2d& v) { return Point<PageMm>::from(v); };
  layer.lines.push_back({{point({0, 0}), point(tip)}, false, 0.5, 0.0, kPlaceColour, "shift-x20"});
  layer.lines.push_back(
      {{point(tip - 3 * way + 1.2 * across), point(tip), point(tip - 3 * way - 1.2 * across)},
       false,
       0.5,
       0.0,
       kPlaceColour,
       "shift-x20"});
}

GuidesLayer layer_of(const BackLayerRequest& r, const BackLayerReport& report) {
  GuidesLayer layer{r.profile.paper, {}, {}};
  const auto page_from_wanted = r.profile.mean.page_from_wanted();
  const TurnAxis axis = turn_axis(r.profile.turn, r.profile.paper);
  const auto add = [&](const char* name, const Colour& colour, double dash, Reach reach,
                       const Affine<VersoMm, VersoMm>& map) {
    for (const CardPlace& place : verso_places(report.grid, axis, {})) {
      layer.lines.push_back({corners_of(place.cell.grown(reach.x_mm, reach.y_mm), map), true, 0.2,
                             dash, colour, name});
    }
  };
  add("reach-of-the-artwork", kReachColour, 1.0, report.oversize, page_from_wanted);
  add("cut", kCutColour, 2.0, {}, {});
  add("place-of-the-artwork", kPlaceColour, 0.0, {}, page_from_wanted);
  add_arrow(layer, {report.shift.dx_mm, report.shift.dy_mm});
  const double x = -r.profile.paper.width_mm / 2 + 8;
  double y = r.profile.paper.height_mm / 2 - 6;
  for (const std::string& line :
       {std::string(tr("Back page, as one looks at it. Dark dashes: where the cards are cut. "
                       "Solid: where the artwork must be put.")),
        tr("Light dashes: how far it must reach ({} mm on every side). Arrow: the shift, {} times "
           "as large.",
           format_number(std::max(report.oversize.x_mm, report.oversize.y_mm), 2), kArrowScale)}) {
    layer.notes.push_back({{x, y - 3.0}, line, 2.6, Align::left, 0.0, false, {}});
    y += 3.4;
  }
  return layer;
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
  const GuidesLayer layer = layer_of(r, report);
  const RgbaImage picture = picture_of(layer, r.ppi);
  report.width_px = picture.width_px;
  report.height_px = picture.height_px;
  write_file_atomically(r.png, encode_png(picture, r.ppi), r.replace);
  write_file_atomically(r.svg, svg_of(layer, r.ppi), r.replace);
  return report;
}

}  // namespace versolay
