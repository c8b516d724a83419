#include <fmt/format.h>

#include "app/next_step.h"
#include "app/profile.h"
#include "app/words.h"
#include "cli/command.h"
#include "core/numbers.h"
#include "core/translation.h"
#include "profile/advise.h"
#include "profile/profile_json.h"

namespace versolay::cli {
namespace {

struct ProfileOptions {
  std::vector<std::string> readings;
  std::string printer;
  std::string feed;
  std::string stock;
  std::string quality;
  std::string out;
  bool keep = false;
  bool keep_doubtful = false;
  std::vector<std::string> exclude;
  std::vector<std::string> why;
};

/// "3" or "may.json:3".
LeaveOut leave_out_from(const std::string& text, const std::string& why) {
  const std::size_t colon = text.rfind(':');
  const std::string number = colon == std::string::npos ? text : text.substr(colon + 1);
  const auto sheet = parse_integer(number);
  if (!sheet || *sheet < 1) {
    throw Error("--exclude " + text, tr("must be the number of a sheet, as in 3 or may.json:3"));
  }
  return {*sheet, colon == std::string::npos ? "" : text.substr(0, colon), why};
}

EstimateOptions estimate_options_from(const ProfileOptions& options) {
  EstimateOptions estimate;
  estimate.keep_misfeeds = options.keep;
  estimate.keep_doubtful = options.keep_doubtful;
  if (options.exclude.size() != options.why.size()) {
    throw Error("--exclude",
                tr("needs one --why for each sheet: a sheet is never left out silently"));
  }
  for (std::size_t i = 0; i < options.exclude.size(); ++i) {
    if (options.why[i].empty()) throw Error("--why", tr("must give a reason"));
    estimate.leave_out.push_back(leave_out_from(options.exclude[i], options.why[i]));
  }
  return estimate;
}

ProfileRequest profile_request(const ProfileOptions& options, const CommonOptions& common) {
  ProfileRequest request;
  request.readings.assign(options.readings.begin(), options.readings.end());
  request.labels = {options.printer, options.feed, options.stock, options.quality};
  request.options = estimate_options_from(options);
  request.out = options.out;
  request.replace = common.force;
  return request;
}

Outcome outcome_of(const ProfileOptions& options, const PrinterProfile& profile) {
  Outcome outcome;
  outcome.text = tr("{}\nWritten to {}. It holds for this printer, feed, paper and quality only.",
                    profile_words(profile), options.out);
  outcome.document = json_of(profile);
  outcome.warnings = profile.warnings;
  outcome.next = profile.spread_dof < kFewestDof
                     ? more_sheets_command(profile)
                     : fmt::format("versolay advise {} --card 63x88 --grid auto", options.out);
  return outcome;
}

}  // namespace

Command add_profile(CLI::App& root) {
  auto options = make_options<ProfileOptions>();
  CLI::App* parser = root.add_subcommand(
      "profile", tr("Learn a printer from readings: its constant error and its spread"));
  parser
      ->add_option("readings", options->readings,
                   tr("readings files; each is one session of printing"))
      ->required();
  parser->add_option("--printer", options->printer, tr("name of the printer, in your words"))
      ->required();
  parser->add_option("--feed", options->feed, tr("tray and guides, in your words"));
  parser->add_option("--stock", options->stock, tr("the paper, in your words"));
  parser->add_option("--quality", options->quality, tr("quality setting, in your words"));
  parser->add_flag(
      "--keep", options->keep,
      tr("count in sheets that were badly misfed; otherwise they are left out and named"));
  parser->add_flag("--keep-doubtful", options->keep_doubtful,
                   tr("count in sheets whose reading is in doubt; otherwise they are left out and "
                      "named, as long as three others remain"));
  parser->add_option("--exclude", options->exclude,
                     tr("leave this sheet out, as in 3 or may.json:3; can be repeated"));
  parser->add_option("--why", options->why, tr("the reason, one for each --exclude"));
  parser->add_option("--out", options->out, tr("profile to write (JSON)"))->required();
  parser->footer(
      tr("Example: versolay profile readings.json --printer \"office inkjet\" --feed \"rear tray\" "
         "--out inkjet.json"));
  return {parser, [options](const CommonOptions& common) -> Result<Outcome> {
            const auto profile = make_profile(profile_request(*options, common));
            if (!profile) return profile.refusal();
            return outcome_of(*options, profile.value());
          }};
}

}  // namespace versolay::cli
