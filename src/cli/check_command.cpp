#include <fmt/format.h>

#include "app/check.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/registration_json.h"
#include "profile/profile_json.h"
#include "words/check_words.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

const char* to_string(CheckVerdict verdict) {
  switch (verdict) {
    case CheckVerdict::pool:
      return "pool";
    case CheckVerdict::recentre:
      return "recentre";
    case CheckVerdict::start_again:
      return "start_again";
  }
  return "";
}

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

Outcome outcome_of(const CheckRequest& options, const CheckReport& report,
                   const DisplayUnit& unit) {
  Outcome outcome;
  outcome.text = check_words(report.check, report.profile, report.left, unit);
  outcome.document = document_of(report);
  outcome.warnings = report.warnings;
  if (report.check.verdict == CheckVerdict::recentre) {
    outcome.warnings.push_back(
        {"constant_part_moved", tr("Backs that are corrected by the old profile land off by what "
                                   "has changed. Use the updated profile for the next job")});
  } else if (report.check.verdict == CheckVerdict::start_again) {
    outcome.warnings.push_back(
        {"spread_changed", tr("The promises of the old profile no longer hold. Measure 10 target "
                              "sheets of the printer as it is now")});
  }
  if (report.updated) {
    outcome.text += tr("\nWritten to {}.", options.out.string());
    outcome.next = fmt::format("versolay advise {} --card 63x88 --grid auto", options.out.string());
  } else if (report.profile.feeds.empty()) {  // it cannot take new sheets in
    outcome.next =
        fmt::format("versolay advise {} --card 63x88 --grid auto", options.profile.string());
  } else {
    outcome.next =
        fmt::format("versolay check {} {}{} --out updated.json", options.profile.string(),
                    options.readings.string(), options.corrected ? " --corrected" : "");
  }
  return outcome;
}

}  // namespace

Command add_check(CLI::App& root) {
  auto options = make_options<CheckRequest>();
  CLI::App* parser =
      root.add_subcommand("check", tr("Do new readings still fit a profile? Brings it up to date"));
  add_profile_argument(*parser, options->profile);
  add_typed(*parser, "readings", options->readings, file(), tr("readings of new sheets (JSON)"))
      ->required();
  parser->add_flag(
      "--corrected", options->corrected,
      tr("sheets that do not say so (targets) were printed with this profile's correction"));
  add_out(*parser, options->out, tr("write the profile with the new sheets in it"));
  parser->footer(tr(
      "Of 100 checks of a printer that has not changed, 5 say that it has. From 5 new sheets "
      "against 10, a spread three times as large is noticed in 9 of 10 cases, twice as large in "
      "4 of 10; a shift of two standard deviations in 4 of 10. From 2 sheets: 5, 2 and 2 of 10.\n"
      "Example: versolay check inkjet.json may.json --out inkjet-may.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            options->replace = common.force;
            const auto report = run_check(*options);
            if (!report) return report.refusal();
            return outcome_of(*options, report.value(), common.unit);
          }};
}

}  // namespace versolay::cli
