#include "app/advise.h"

#include "profile/advise.h"
#include "profile/profile_json.h"

namespace versolay {

Result<AdviseReport> advise_from_file(const AdviseRequest& request) {
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
  Result<Advice> advice = advise(report.profile, advice_request,
                                 {.populations = request.populations, .threads = request.threads});
  if (!advice) return advice.refusal();
  report.advice = std::move(advice).value();
  return report;
}

}  // namespace versolay
