#include "cli/advice_json.h"
#include "cli/advise_options.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "core/numbers.h"
#include "words/advice_words.h"
#include "words/commands.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct AdviseOptions {
  AdviseRequest request;
  bool table = false;
  bool verbose = false;
};

Outcome outcome_of(const AdviseOptions& options, const AdviseReport& report,
                   const DisplayUnit& unit) {
  Outcome outcome;
  const Advice& advice = report.advice;
  outcome.text = options.verbose ? verdict_words(advice, report.profile, unit)
                                 : short_verdict_words(advice, report.profile, unit) +
                                       tr("\nFor the scope, other ways to print and the gain from "
                                          "more sheets, add --verbose.");
  if (options.table) outcome.text += "\n\n" + advice_tables_words(advice, unit);
  if (options.verbose) {
    outcome.text += tr(
        "\n\nHow it was computed: the quantile of the estimated printer, times the exact tolerance "
        "factor for {} degrees of freedom of the oversize itself (Satterthwaite) and {} sheets; "
        "standard error of the draws {}. The shares of good cards are means over {} credible "
        "populations x {} sheets, seed {}.",
        format_number(advice.effective_dof, 1), report.profile.mean_feeds,
        distance_words(advice.standard_error_mm, unit), advice.draws_outer, advice.draws_inner,
        advice.request.seed);
  }
  outcome.document = json_of(report, options.request.profile.string());
  const AdviceWords words = advice_words(advice, report.profile, unit);
  if (!words.editor.empty()) {
    outcome.parts = {{"editor", words.editor}, {"editor_note", words.editor_note}};
  }
  outcome.warnings = advice.warnings;
  outcome.next = impose_command(options.request.profile, options.request.card, advice.request.grid);
  return outcome;
}

}  // namespace

Command add_advise(CLI::App& root) {
  auto options = make_options<AdviseOptions>();
  CLI::App* parser = root.add_subcommand(
      "advise", tr("How to move the backs and how much larger to make them, and how sure that is"));
  add_advise_options(*parser, options->request);
  parser->get_option("--card")->required();
  parser->add_flag("--table", options->table, tr("add the table of cells and the yield curve"));
  parser->add_flag("--verbose", options->verbose,
                   tr("show everything: scope, ways to print, yield, and how it was computed"));
  parser->footer(
      tr("Example: versolay advise inkjet.json --card 63x88 --grid 3x3 --cards 54 --border 3"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const auto report = run_advise(options->request);
            if (!report) return report.refusal();
            return outcome_of(*options, report.value(), common.unit);
          }};
}

}  // namespace versolay::cli
