#include <fmt/format.h>

#include "app/plan.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "words/plan_words.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

/// "rear tray,front tray".
Typed<std::vector<std::string>> set_ups() {
  return {"NAME,NAME",
          [](const std::string&, const std::string& text) { return comma_list(text); },
          {}};
}

Json document_of(const Plan& plan) {
  Json rows = Json::array();
  for (const PlanRow& row : plan.sheets.rows) {
    rows.push_back({{"sheets", row.sheets},
                    {"oversize_mm", rounded(row.oversize_mm, 4)},
                    {"oversize_px", row.oversize_px},
                    {"saved_by_next_mm", rounded(row.saved_by_next_mm, 4)},
                    {"smallest_offset_mm", rounded(row.smallest_offset_mm, 4)}});
  }
  Json choices = Json::array();
  for (const PlanChoice& c : plan.sheets.choices) {
    choices.push_back({{"sheets", c.sheets},
                       {"passes", c.passes},
                       {"oversize_mm", rounded(c.oversize_mm, 4)},
                       {"oversize_px", c.oversize_px},
                       {"feeds", c.feeds},
                       {"scans", c.scans},
                       {"minutes", c.minutes}});
  }
  Json document = {{"schema", "versolay.plan/1"},
                   {"sd_mm", rounded(plan.asked.sd_mm, 4)},
                   {"sd_is_measured", plan.sd_is_measured},
                   {"coverage", plan.asked.coverage},
                   {"confidence", plan.asked.confidence},
                   {"ppi", plan.asked.ppi},
                   {"advised_sheets", plan.sheets.advised},
                   {"limit_mm", rounded(plan.sheets.limit_mm, 4)},
                   {"sheets", std::move(rows)},
                   {"choices", std::move(choices)}};
  if (!plan.runs.empty()) {
    Json runs = Json::array();
    for (const Run& run : plan.runs) {
      runs.push_back(
          {{"run", run.number}, {"block", run.block}, {"set_up", plan.order.set_ups[run.set_up]}});
    }
    document["seed"] = plan.order.seed;
    document["runs"] = std::move(runs);
    document["power"] = {{"paired_difference_sd", rounded(plan.power.paired_difference, 3)},
                         {"spread_ratio", rounded(plan.power.spread_ratio, 3)}};
  }
  return document;
}

}  // namespace

Command add_plan(CLI::App& root) {
  auto request = make_options<PlanRequest>();
  request->runs.blocks = 6;
  CLI::App* parser = root.add_subcommand(
      "plan", tr("How many target sheets to print, and in which order to try set-ups"));
  add_typed(*parser, "profile", request->profile, optional(file()),
            tr("printer profile (JSON) to take the spread from; without: --sd"));
  add_typed(*parser, "--sd", request->plan.sd_mm, length(5),
            tr("assumed spread at the cards from feed to feed, mm"));
  add_card(*parser, request->card);
  add_coverage(*parser, request->plan.coverage);
  add_confidence(*parser, request->plan.confidence);
  add_ppi(*parser, request->plan.ppi);
  add_typed(*parser, "--compare", request->runs.set_ups, set_ups(),
            tr("set-ups to compare, separated by commas, in a randomised run order"));
  add_sheets(*parser, request->runs.blocks)->description(tr("sheets of each set-up"));
  add_seed(*parser, request->runs.seed);
  add_out(*parser, request->out, tr("run card to write, .pdf or .txt"));
  parser->footer(
      tr("Example: versolay plan --compare \"rear tray,front tray\" --sheets 6 --out runs.pdf"));
  return {parser, [request](const CommonOptions& common) -> Result<Outcome> {
            request->replace = common.force;
            const Result<Plan> plan = run_plan(*request);
            if (!plan) return plan.refusal();
            Outcome outcome;
            const PlanWords words = plan_words(plan.value(), common.unit);
            outcome.text = words.advice + "\n\n";
            outcome.text += words.sheets;
            outcome.text += "\n" + words.notes;
            if (!request->out.empty()) outcome.text += tr("Run card: {}", request->out.string());
            if (!words.choices.rows.empty()) {
              outcome.text += "\n\n";
              outcome.text += words.choices;
              outcome.text += "\n" + words.choices_notes;
            }
            outcome.document = document_of(plan.value());
            const int sheets = plan.value().runs.empty()
                                   ? plan.value().sheets.advised
                                   : static_cast<int>(plan.value().runs.size());
            outcome.next = fmt::format(
                "versolay target --paper a4 --turn long-edge --sheets {} --out target.pdf", sheets);
            return outcome;
          }};
}

}  // namespace versolay::cli
