#include <fmt/format.h>

#include "app/plan.h"
#include "cli/command.h"
#include "core/translation.h"

namespace versolay::cli {
namespace {

struct PlanOptions {
  std::string profile;
  std::string card = "63x88";
  std::string sd = "0.2";
  std::string coverage = "0.95";
  std::string confidence = "0.9";
  std::string ppi = "300";
  std::vector<std::string> compare;
  int sheets = 6;
  std::uint64_t seed = 1;
  std::string out;
};

PlanJob job_from(const PlanOptions& options, const CommonOptions& common) {
  PlanJob job;
  if (!options.profile.empty()) job.profile = options.profile;
  job.card = option_card(options.card);
  job.plan.sd_mm = option_number("--sd", options.sd);
  job.plan.coverage = option_number("--coverage", options.coverage);
  job.plan.confidence = option_number("--confidence", options.confidence);
  job.plan.ppi = option_number("--ppi", options.ppi);
  job.runs = {options.compare, options.sheets, options.seed};
  job.out = options.out;
  job.replace = common.force;
  return job;
}

Json document_of(const PlanJob& job, const PlanReport& report) {
  Json rows = Json::array();
  for (const PlanRow& row : report.sheets.rows) {
    rows.push_back({{"sheets", row.sheets},
                    {"oversize_mm", rounded(row.oversize_mm, 4)},
                    {"oversize_px", row.oversize_px},
                    {"saved_by_next_mm", rounded(row.saved_by_next_mm, 4)},
                    {"smallest_offset_mm", rounded(row.smallest_offset_mm, 4)}});
  }
  Json document = {{"schema", "versolay.plan/1"},
                   {"sd_mm", rounded(report.sd_mm, 4)},
                   {"sd_is_measured", report.sd_is_measured},
                   {"coverage", job.plan.coverage},
                   {"confidence", job.plan.confidence},
                   {"ppi", job.plan.ppi},
                   {"advised_sheets", report.sheets.advised},
                   {"limit_mm", rounded(report.sheets.limit_mm, 4)},
                   {"sheets", std::move(rows)}};
  if (!report.runs.empty()) {
    Json runs = Json::array();
    for (const Run& run : report.runs) {
      runs.push_back(
          {{"run", run.number}, {"block", run.block}, {"set_up", job.runs.set_ups[run.set_up]}});
    }
    document["seed"] = job.runs.seed;
    document["runs"] = std::move(runs);
    document["power"] = {{"paired_difference_sd", rounded(report.power.paired_difference, 3)},
                         {"spread_ratio", rounded(report.power.spread_ratio, 3)}};
  }
  return document;
}

}  // namespace

Command add_plan(CLI::App& root) {
  auto options = make_options<PlanOptions>();
  CLI::App* parser = root.add_subcommand(
      "plan", tr("How many target sheets to print, and in which order to try set-ups"));
  const auto add = [parser](const char* name, auto& value, const char* what) {
    return parser->add_option(name, value, what)->capture_default_str();
  };
  parser->add_option("profile", options->profile,
                     tr("printer profile (JSON) to take the spread from; without: --sd"));
  add("--sd", options->sd, tr("assumed spread at the cards from feed to feed, mm"));
  add("--card", options->card, tr("finished card, width x height in mm"));
  add("--coverage", options->coverage, tr("share of future cards to be free of slivers"));
  add("--confidence", options->confidence, tr("how sure the promise has to be"));
  add("--ppi", options->ppi, tr("pixels per inch of the artwork"));
  parser
      ->add_option("--compare", options->compare,
                   tr("set-ups to compare, comma between: a randomised run order"))
      ->delimiter(',');
  add("--sheets", options->sheets, tr("sheets of each set-up"));
  add("--seed", options->seed, tr("seed of the run order"));
  parser->add_option("--out", options->out, tr("run card to write, .pdf or .txt"));
  parser->footer(
      tr("Example: versolay plan --compare \"rear tray,front tray\" --sheets 6 --out runs.pdf"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const PlanJob job = job_from(*options, common);
            const auto report = make_plan(job);
            if (!report) return report.refusal();
            Outcome outcome;
            const PlanWords words = plan_words(job, report.value());
            outcome.text = words.advice + "\n\n";
            outcome.text += words.sheets;
            outcome.text += "\n" + words.notes;
            outcome.document = document_of(job, report.value());
            const int sheets = report.value().runs.empty()
                                   ? report.value().sheets.advised
                                   : static_cast<int>(report.value().runs.size());
            outcome.next = fmt::format(
                "versolay target --paper a4 --turn long-edge --sheets {} --out target.pdf", sheets);
            return outcome;
          }};
}

}  // namespace versolay::cli
