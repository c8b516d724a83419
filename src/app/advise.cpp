#include "app/advise.h"

#include "core/numbers.h"
#include "imposition/shared_cuts.h"
#include "profile/monitor.h"
#include "profile/printing_ways.h"
#include "profile/profile_json.h"
#include "profile/profile_match.h"
#include "profile/recommendation.h"
#include "registration/readings_json.h"

namespace versolay {

Result<PrinterProfile> profile_for_job(const std::filesystem::path& profile,
                                       const std::optional<std::filesystem::path>& recentre) {
  PrinterProfile kept = read_profile(profile);
  if (!recentre) return kept;
  Readings readings = read_readings(*recentre);
  if (const auto no = profile_mismatch(kept, readings.paper, readings.turn)) return *no;
  return recentred_profile(kept, {recentre->filename().string(), std::move(readings)});
}

Result<AdviseReport> run_advise(const AdviseRequest& request) {
  Result<PrinterProfile> profile = profile_for_job(request.profile, request.recentre);
  if (!profile) return profile.refusal();
  AdviseReport report;
  report.profile = std::move(profile).value();
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
  add_shared_cuts(report.profile, report.advice);
  report.advice.ways = printing_ways(report.profile, report.advice, {.threads = request.threads});
  report.advice.editor =
      editor_settings(report.profile, report.advice.request, {.threads = request.threads});
  return report;
}

}  // namespace versolay
