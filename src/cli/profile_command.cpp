#include <fmt/format.h>

#include "app/profile.h"
#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/shared_options.h"
#include "core/numbers.h"
#include "profile/profile_json.h"
#include "profile/recommendation.h"
#include "words/advice_words.h"
#include "words/commands.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct ProfileOptions {
  ProfileRequest request;
  std::vector<LeaveOut> exclude;
  std::vector<std::string> why;
  bool verbose = false;
};

/// "3" or "may.json:3".
Typed<LeaveOut> sheet_of_readings() {
  return {"SHEET",
          [](const std::string& option, const std::string& text) {
            const std::size_t colon = text.rfind(':');
            const bool named = colon != std::string::npos;
            const auto sheet = parse_integer(named ? text.substr(colon + 1) : text);
            if (!sheet || *sheet < 1) {
              throw BadOption(option, text, findings::sheet_expected());
            }
            return LeaveOut{*sheet, named ? text.substr(0, colon) : "", ""};
          },
          {}};
}

ProfileRequest profile_request(const ProfileOptions& options, const CommonOptions& common) {
  ProfileRequest request = options.request;
  request.replace = common.force;
  if (options.exclude.size() != options.why.size()) {
    throw BadOption("--exclude", findings::reason_missing());
  }
  for (std::size_t i = 0; i < options.exclude.size(); ++i) {
    if (options.why[i].empty()) throw BadOption("--why", findings::reason_empty());
    request.options.leave_out.push_back(options.exclude[i]);
    request.options.leave_out.back().why = options.why[i];
  }
  return request;
}

Outcome outcome_of(const ProfileRequest& request, const PrinterProfile& profile, bool verbose,
                   const DisplayUnit& unit) {
  Outcome outcome;
  outcome.text =
      tr("{}\nWritten to {}. It is valid for this printer, feed, paper and quality only.",
         verbose ? profile_words(profile, unit) : short_profile_words(profile, unit),
         request.out.string());
  outcome.document = json_of(profile);
  outcome.warnings = profile.warnings;
  outcome.next =
      profile.spread_dof < kFewestDof ? more_sheets_command(profile) : advise_command(request.out);
  return outcome;
}

}  // namespace

Command add_profile(CLI::App& root) {
  auto options = make_options<ProfileOptions>();
  CLI::App* parser = root.add_subcommand(
      "profile", tr("Learn a printer from readings: its constant error and its spread"));
  ProfileRequest& request = options->request;
  add_several(*parser, "readings", request.readings, file(),
              tr("readings files; each is one session of printing"))
      ->required();
  add_typed(*parser, "--printer", request.labels.printer, words("NAME"),
            tr("name of the printer, in your words"))
      ->required();
  add_set_up(*parser, request.labels.feed, request.labels.stock, request.labels.quality);
  parser->add_flag(
      "--keep", request.options.keep_misfeeds,
      tr("include sheets that were badly misfed; by default they are left out and listed"));
  parser->add_flag("--verbose", options->verbose, tr("show all test results"));
  parser->add_flag("--keep-doubtful", request.options.keep_doubtful,
                   tr("include sheets whose reading is in doubt; by default they are left out and "
                      "listed, as long as three others remain"));
  add_several(*parser, "--exclude", options->exclude, sheet_of_readings(),
              tr("leave this sheet out, as in 3 or may.json:3; can be repeated"));
  add_several(*parser, "--why", options->why, words("REASON"),
              tr("the reason, one for each --exclude"));
  add_out(*parser, request.out, tr("profile to write (JSON)"))->required();
  parser->footer(
      tr("Example: versolay profile readings.json --printer \"office inkjet\" --feed \"rear tray\" "
         "--out inkjet.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const ProfileRequest asked = profile_request(*options, common);
            const auto profile = run_profile(asked);
            if (!profile) return profile.refusal();
            return outcome_of(asked, profile.value(), options->verbose, common.unit);
          }};
}

}  // namespace versolay::cli
