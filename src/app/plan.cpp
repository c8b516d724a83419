#include "app/plan.h"

#include "core/files.h"
#include "layout/grid.h"
#include "profile/profile_json.h"
#include "report/run_card.h"
#include "words/findings.h"

namespace versolay {
Result<Plan> run_plan(const PlanRequest& job) {
  if (job.runs.set_ups.empty() && !job.out.empty())
    throw BadField("out", findings::no_experiment());
  if (!job.out.empty()) check_output(job.out, job.replace);
  Plan plan;
  SampleSizeRequest& asked = plan.asked = job.plan;
  if (job.profile) {
    const PrinterProfile profile = read_profile(*job.profile);
    if (profile.spread_dof < 1) return findings::spread_of_one_sheet(job.profile->string());
    asked.sd_mm = spread_at_cards_mm(profile, job.card);
    plan.sd_is_measured = true;
    asked.spread = profile.spread_covariance;
    asked.turn = profile.turn;
    asked.paper = profile.paper;
    GridRequest cards;
    cards.paper = profile.paper;
    cards.card = job.card;
    Result<CardGrid> grid = fit_grid(cards);
    if (!grid) return grid.refusal();
    asked.grid = std::move(grid).value();
  }
  plan.sheets = plan_sample_size(asked);
  if (job.runs.set_ups.empty()) return plan;
  plan.order = job.runs;
  plan.runs = run_order(job.runs);
  plan.power = run_power(job.runs.blocks);
  if (!job.out.empty()) {
    const bool pdf = job.out.extension() == ".pdf";
    write_file_atomically(
        job.out, pdf ? run_card_pdf(job.runs, plan.runs) : run_card_text(job.runs, plan.runs),
        job.replace);
  }
  return plan;
}

}  // namespace versolay
