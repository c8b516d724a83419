#include "profile/printing_ways.h"

#include <cmath>

#include "core/numbers.h"
#include "profile/advice_tables.h"
#include "profile/fitted.h"
#include "stats/promised_oversize.h"

namespace versolay {
namespace {

/// Enough for figures that are compared with each other: 3 %.
constexpr int kPopulations = 300;

Eigen::Vector2d mm_of(const Oversize& o) { return {o.x_mm, o.y_mm}; }

stats::MonteCarlo draws_for(const AdviceRequest& request, const Effort& effort) {
  stats::MonteCarlo mc;
  mc.populations = effort.populations > 0 ? effort.populations : kPopulations;
  mc.sheets = effort.sheets > 0 ? effort.sheets : 400;
  mc.seed = request.seed;
  mc.threads = effort.threads;
  return mc;
}

/// Precondition: the cards of the sheet as the advice has them.
PrintingWay as_printed(const PrinterProfile& profile, const Advice& advice,
                       const stats::MonteCarlo& mc) {
  stats::FutureCards future = future_cards(profile, advice.request, {});
  const Eigen::Vector2d direction = mm_of(advice.oversize) / mm_of(advice.oversize).maxCoeff();
  PrintingWay way{WayToPrint::as_printed, {}, {}};
  way.good = expected_good(stats::yield_of(future, mm_of(advice.oversize), mc),
                           static_cast<int>(advice.request.grid.cells.size()));
  if (advice.scatter_is_odd) future.set_heavy_tails();
  const stats::PromisedOversize promised(future, direction, advice.request.coverage, mc);
  way.oversize =
      oversize_of(promised.at(advice.request.confidence).factor * direction, advice.request.ppi);
  return way;
}

std::optional<PrintingWay> fitted_to_fronts(const PrinterProfile& profile, const Advice& advice,
                                            const Effort& effort, const stats::MonteCarlo& mc) {
  const Result<FittedBacks> fitted = fitted_backs(profile);
  if (!fitted) return std::nullopt;
  const Result<BareAdvice> own = bare_advice(fitted.value().profile, advice.request, effort);
  if (!own) return std::nullopt;
  return PrintingWay{WayToPrint::fitted, own.value().oversize,
                     expected_good(stats::yield_of(own.value().future, mm_of(advice.oversize), mc),
                                   static_cast<int>(advice.request.grid.cells.size()))};
}

}  // namespace

std::vector<PrintingWay> printing_ways(const PrinterProfile& profile, const Advice& advice,
                                       const Effort& effort) {
  const stats::MonteCarlo mc = draws_for(advice.request, effort);
  std::vector<PrintingWay> ways{as_printed(profile, advice, mc),
                                {WayToPrint::moved, advice.oversize, advice.expected_good}};
  if (auto fitted = fitted_to_fronts(profile, advice, effort, mc)) ways.push_back(*fitted);
  return ways;
}

std::optional<EditorSettings> editor_settings(const PrinterProfile& profile,
                                              const AdviceRequest& request, const Effort& effort) {
  AdviceRequest whole_px = request;
  whole_px.step_mm = kMmPerInch / request.ppi;
  whole_px.can_rotate = whole_px.can_scale = false;
  whole_px.cards.reset();
  whole_px.border_mm.reset();
  const Result<BareAdvice> advice = bare_advice(profile, whole_px, effort);
  if (!advice) return std::nullopt;
  const auto px = [&](double mm) {
    return static_cast<int>(std::lround(artwork_px_from_mm(mm, request.ppi)));
  };
  EditorSettings editor;
  editor.oversize = advice.value().oversize;
  editor.canvas_width_px = px(request.grid.card.width_mm) + 2 * editor.oversize.x_px;
  editor.canvas_height_px = px(request.grid.card.height_mm) + 2 * editor.oversize.y_px;
  editor.right_px = px(advice.value().shift.dx_mm);
  editor.down_px = px(advice.value().shift.dy_mm);
  return editor;
}

}  // namespace versolay
