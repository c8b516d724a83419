#include "app/advise.h"

#include "core/numbers.h"
#include "profile/advise.h"
#include "profile/profile_json.h"

namespace versolay {

Result<AdviseReport> run_advise(const AdviseRequest& request) {
  AdviseReport report;
  report.profile = read_profile(request.profile);
  GridRequest grid_request;
  grid_request.paper = report.profile.paper;
  grid_request.card = request.card;
  grid_request.shape = request.shape;
  grid_request.gutter_mm = request.gutter_mm;
  Result<CardGrid> grid = fit_grid(grid_request);
  if (!grid) return grid.refusal();

  AdviceRequest advice_request = request.advice;
  advice_request.grid = std::move(grid).value();
  const double unit_mm = request.step.px ? kMmPerInch / advice_request.ppi : 1.0;
  advice_request.step_mm = request.step.size * unit_mm;
  Result<Advice> advice = advise(report.profile, advice_request,
                                 {.populations = request.populations, .threads = request.threads});
  if (!advice) return advice.refusal();
  report.advice = std::move(advice).value();
  return report;
}

}  // namespace versolay
