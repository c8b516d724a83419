#include <fmt/format.h>

#include "app/advice_json.h"
#include "app/words.h"
#include "cli/command.h"
#include "cli/job_options.h"
#include "core/numbers.h"
#include "core/translation.h"

namespace versolay::cli {
namespace {

struct AdviseOptions {
  JobOptions job;
  bool table = false;
  bool verbose = false;
};

Outcome outcome_of(const AdviseOptions& options, const AdviseReport& report) {
  Outcome outcome;
  const Advice& advice = report.advice;
  outcome.text = verdict_words(advice, report.profile);
  if (options.table) outcome.text += "\n\n" + advice_tables_words(advice);
  if (options.verbose) {
    outcome.text +=
        tr("\n\nHow it was computed: generalised-fiducial tolerance bound, {} populations x {} "
           "sheets, seed {}; its Monte Carlo standard error is {} mm.\nCross-check: {} times the "
           "plug-in quantile with its tolerance factor.",
           advice.draws_outer, advice.draws_inner, advice.request.seed,
           format_fixed(advice.standard_error_mm, 4), format_fixed(advice.cross_check_ratio, 3));
  }
  outcome.document = json_of(report, options.job.profile);
  outcome.warnings = advice.warnings;
  outcome.next = fmt::format(
      "versolay impose --fronts FOLDER --back BACK.png --card {} --grid {} --profile {} --out "
      "job.pdf",
      options.job.card, options.job.grid, options.job.profile);
  return outcome;
}

}  // namespace

Command add_advise(CLI::App& root) {
  auto options = make_options<AdviseOptions>();
  CLI::App* parser = root.add_subcommand(
      "advise", tr("How to move the backs and how much larger to make them, and how sure that is"));
  add_job_options(*parser, options->job);
  parser->get_option("--card")->required();
  parser->add_flag("--table", options->table, tr("add the table of cells and the yield curve"));
  parser->add_flag("--verbose", options->verbose, tr("tell how it was computed"));
  parser->footer(
      tr("Example: versolay advise inkjet.json --card 63x88 --grid 3x3 --cards 54 --border 3"));
  return {parser, [options](const CommonOptions&) -> Result<Outcome> {
            const auto report = advise_from_file(request_from(options->job));
            if (!report) return report.refusal();
            return outcome_of(*options, report.value());
          }};
}

}  // namespace versolay::cli
