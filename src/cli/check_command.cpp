#include <fmt/format.h>

#include "app/check.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/registration_json.h"
#include "profile/profile_json.h"
#include "words/check_words.h"
#include "words/commands.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct CheckOptions {
  CheckRequest request;
  bool verbose = false;
};

Json interval_json(const stats::Interval& i) {
  return {{"estimate", rounded(i.estimate, 6)},
          {"low", rounded(i.low, 6)},
          {"high", rounded(i.high, 6)},
          {"p_value", rounded(i.p_value, 6)}};
}

Json document_of(const CheckReport& report) {
  const Check& c = report.check;
  Json sheets = Json::array();
  for (const FeedCheck& f : c.feeds) {
    sheets.push_back({{"sheet", f.sheet},
                      {"t2", rounded(f.t2, 4)},
                      {"mewma", rounded(f.mewma, 4)},
                      {"out", f.out}});
  }
  Json document = {{"schema", "versolay.check/1"},
                   {"verdict", to_string(c.verdict)},
                   {"n_new", c.n_new},
                   {"charted", c.charted},
                   {"t2_limit", rounded(c.t2_limit, 4)},
                   {"mewma_limit", rounded(c.mewma_limit, 4)},
                   {"drift", c.drift},
                   {"mean_moved", c.mean_moved},
                   {"spread_known", c.spread_known},
                   {"spread_changed", c.spread_changed},
                   {"spread_p_value", rounded(c.spread_p_value, 4)},
                   {"sheets", std::move(sheets)}};
  if (report.left) {
    document["left_after_correction"] = {{"sheets", report.left->sheets},
                                         {"mean", json_of(report.left->mean)}};
  }
  if (c.n_new >= 2) {
    for (std::size_t k = 0; k < c.moved.size(); ++k) {
      const std::string key(kRegistrationKeys[k]);
      document["moved"][key] = interval_json(c.moved[k]);
      document["spread_ratio"][key] = c.spread_known ? interval_json(c.spread[k]) : Json();
    }
  }
  if (report.updated) document["profile"] = json_of(*report.updated);
  return document;
}

const char* how_printed(const CheckRequest& options) {
  if (!options.corrected) return "";
  return *options.corrected ? " --corrected" : " --not-corrected";
}

Outcome outcome_of(const CheckRequest& options, const CheckReport& report, bool verbose,
                   const DisplayUnit& unit) {
  Outcome outcome;
  outcome.text = verbose ? check_words(report.check, report.profile, report.left, unit)
                         : short_check_words(report.check, report.profile, report.left, unit);
  outcome.document = document_of(report);
  outcome.warnings = report.warnings;
  if (report.check.verdict == CheckVerdict::recentre) {
    outcome.warnings.push_back(findings::constant_part_moved());
  } else if (report.check.verdict == CheckVerdict::start_again) {
    outcome.warnings.push_back(findings::spread_changed());
  }
  if (report.updated) {
    outcome.text += tr("\nWritten to {}.", options.out.string());
    outcome.next = advise_command(options.out);
  } else if (report.profile.feeds.empty() || report.known) {  // it cannot take these sheets in
    outcome.next = advise_command(options.profile);
  } else {
    outcome.next = fmt::format("versolay check {} {}{} --out updated.json",
                               shell_word(options.profile.string()),
                               shell_word(options.readings.string()), how_printed(options));
  }
  return outcome;
}

}  // namespace

Command add_check(CLI::App& root) {
  auto asked = make_options<CheckOptions>();
  CheckRequest* options = &asked->request;
  CLI::App* parser = root.add_subcommand(
      "check", tr("Check whether new readings still fit a profile, and update it"));
  add_profile_argument(*parser, options->profile);
  add_typed(*parser, "readings", options->readings, file(), tr("readings of new sheets (JSON)"))
      ->required();
  auto* corrected = parser->add_flag_callback(
      "--corrected", [asked] { asked->request.corrected = true; },
      tr("sheets that do not say so (targets) were printed with this profile's correction"));
  parser
      ->add_flag_callback(
          "--not-corrected", [asked] { asked->request.corrected = false; },
          tr("they were printed without it, although they landed as if with it"))
      ->excludes(corrected);
  add_out(*parser, options->out, tr("write the profile with the new sheets in it"));
  parser->add_flag("--verbose", asked->verbose,
                   tr("show everything: intervals, distances, limits"));
  parser->footer(
      tr("Of 100 checks of an unchanged printer, 5 report a change. With 5 new sheets against 10, "
         "a spread three times as large is detected in 9 of 10 cases, twice as large in 4 of 10; a "
         "shift of two standard deviations in 4 of 10. With 2 sheets: 5, 2 and 2 of 10.\n"
         "Example: versolay check inkjet.json may.json --out inkjet-may.json"));
  return {parser, [asked](const CommonOptions& common) -> Result<Outcome> {
            asked->request.replace = common.force;
            const auto report = run_check(asked->request);
            if (!report) return report.refusal();
            return outcome_of(asked->request, report.value(), asked->verbose, common.unit);
          }};
}

}  // namespace versolay::cli
