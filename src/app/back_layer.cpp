#include "app/back_layer.h"

#include <algorithm>

#include "core/field_range.h"
#include "core/files.h"
#include "imposition/back_layer_drawing.h"
#include "imposition/shared_cuts.h"
#include "profile/profile_match.h"
#include "profile/recommendation.h"
#include "words/layer_words.h"

namespace versolay {
namespace {

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
  require_in("ppi", r.ppi, 30, 1200);
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
  const BackLayerDrawing drawing = back_layer_drawing(
      r.profile, report.grid, report.oversize,
      words::back_layer_words(report.shift, report.oversize, r.gutter_mm, r.ppi));
  report.legend = drawing.legend;
  const RgbaImage picture = picture_of(drawing.layer, r.ppi);
  report.width_px = picture.width_px;
  report.height_px = picture.height_px;
  write_file_atomically(r.png, encode_png(picture, r.ppi), r.replace);
  write_file_atomically(r.svg, svg_of(drawing.layer), r.replace);
  return report;
}

}  // namespace versolay
