// versolay: argv in, one of the commands run, text or JSON out, exit code as promised.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>

#include "cli/bad_option.h"
#include "cli/command.h"
#include "cli/command_line_check.h"
#include "cli/help_format.h"
#include "cli/help_words.h"
#include "cli/job_defaults.h"
#include "cli/next_step.h"
#include "cli/option_values.h"
#include "cli/parse_error.h"
#include "cli/terminal.h"
#include "cli/text_style.h"
#include "core/finding_json.h"
#include "core/numbers.h"
#include "core/registration_json.h"
#include "core/software.h"
#include "core/utf8.h"
#include "words/display_unit.h"
#include "words/findings.h"
#include "words/say.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct Group {
  const char* name;
  std::vector<AddCommand> commands;
};

/// The commands, as --help lists them.
const std::vector<Group> kGroups = {
    {tr_noop("The job, in order"),
     {add_target, add_measure, add_readings, add_profile, add_advise, add_report, add_impose,
      add_correct}},
    {tr_noop("More about a printer"), {add_plan, add_compare, add_check, add_profiles}},
    {tr_noop("Help and practice"), {add_rehearse, add_job, add_manual, add_completion}},
};

/// The commands that say distances: they can say them in other units.
constexpr std::array kSayDistances = {"measure", "readings", "profile", "advise",
                                      "impose",  "correct",  "plan",    "compare",
                                      "check",   "profiles", "rehearse"};

void add_common_options(Command& command, CommonOptions& common) {
  command.parser->add_flag("--json", common.json, tr("Print one JSON document instead of text"));
  command.parser->add_flag("--quiet", common.quiet, tr("Print only errors"));
  command.parser->add_flag("--force", common.force, tr("Replace existing outputs"));
  command.parser->add_flag("--no-job", common.no_job, tr("Ignore {} in this folder", kJobFile));
  if (std::find(kSayDistances.begin(), kSayDistances.end(), command.parser->get_name()) !=
      kSayDistances.end()) {
    add_typed(*command.parser, "--units", common.units,
              choice<Units>({{"mm", Units::mm}, {"px", Units::px}, {"in", Units::inches}}),
              tr("Show distances in mm, px (pixels) or in (inches) first. Files always use mm"));
  }
}

/// "Note: ..." on stderr, wrapped as wide as the terminal.
void tell(const std::string& label, const std::string& message) {
  const std::string text = wrapped_for(label + shown(message), terminal_columns(STDERR_FILENO));
  std::cerr << bold(text.substr(0, label.size()), style_is_wanted(STDERR_FILENO))
            << text.substr(label.size()) << "\n";
}

int print_outcome(const Outcome& outcome, const CommonOptions& common) {
  if (common.json) {
    Json document = outcome.document;
    if (!document.contains("warnings")) document["warnings"] = json_of(outcome.warnings);
    words::add_messages(document);
    // What a person would read, so that a program need not run twice to show it.
    document["text"] = shown(outcome.text.laid_out(0));
    for (const NamedPart& part : outcome.parts) {
      document["parts"].push_back({{"about", part.about}, {"message", shown(part.text)}});
    }
    std::cout << to_text(document);
  } else if (!common.quiet) {
    const int columns = terminal_columns(STDOUT_FILENO);
    const std::string text = outcome.text.laid_out(outcome.verbatim ? 0 : columns);
    std::cout << (outcome.verbatim ? text : shown(text)) << "\n";
    if (common.unit.units == Units::px && !outcome.verbatim) {
      std::cout << tr("(px: {} to the inch)\n", format_number(common.unit.per_mm * kMmPerInch, 0));
    }
    if (!outcome.next.empty()) {
      std::cout << "\n"
                << bold(wrapped_for(tr("Next: {}", shown(outcome.next)), columns),
                        style_is_wanted(STDOUT_FILENO))
                << "\n";
    }
  }
  if (!common.json) {
    for (const Notice& n : outcome.warnings) tell(tr("Note: "), words::say(n, common.unit));
  }
  std::cout.flush();
  return outcome.warnings.empty() ? kDone : kDoneWithWarnings;
}

/// The answer is no. `document` says so under "refused", and may say more.
int print_refusal(const Json& document, const CommonOptions& common) {
  Json said = document;
  words::add_messages(said);
  if (common.json) std::cout << to_text(said);
  tell("", said.at("refused").at("message").get<std::string>());
  return kNo;
}

/// For programs: the sentence, and what it is made of.
Json json_of(const Error& error) {
  Json document = {{"message", words::say(error)}};
  if (!error.where().empty()) document["where"] = error.where();
  if (!error.at().empty()) document["at"] = error.at();
  if (const auto* bad = dynamic_cast<const BadOption*>(&error)) document["option"] = bad->option();
  if (!error.problems().empty()) document["problems"] = versolay::json_of(error.problems());
  for (const Error& part : error.parts()) document["parts"].push_back(json_of(part));
  words::add_messages(document);
  return document;
}

/// @param more  where to read on; may be empty.
int print_error(const Error& error, const CommonOptions& common, const std::string& more = "") {
  std::string text = words::say(error);
  if (!more.empty()) text += "\n" + more;
  if (common.json) {
    Json document = json_of(error);
    document["message"] = text;
    std::cout << to_text({{"error", document}});
  }
  tell("versolay: ", text);
  return kBadUse;
}

/// The exception that is being handled, as one of ours.
Error current_error() {
  try {
    throw;
  } catch (const Error& e) {
    return e;
  } catch (const std::filesystem::filesystem_error& e) {
    // A folder on the way that may not be entered, a link to itself, a device that is gone.
    return {e.path1().string(), findings::cannot_be_reached(e.code().message())};
  } catch (const std::bad_alloc&) {
    return {"", findings::no_memory()};
  } catch (const std::exception& e) {  // a fault of ours: a sentence, never an abort
    return {"", findings::internal_error(e.what())};
  }
}

/// The option of this command that fills the field: "--cut-sd" for "cut_sd_mm".
std::string option_of_field(CLI::App& command, const std::string& field) {
  std::string option = "--" + field;
  std::replace(option.begin(), option.end(), '_', '-');
  while (option.size() > 2 && command.get_option_no_throw(option) == nullptr) {
    const std::size_t dash = option.rfind('-');
    option.resize(dash > 1 ? dash : 2);
  }
  return option.size() > 2 ? option : "";
}

/// Rooms below name the field that is wrong; a person typed an option.
int print_naming_options(const Error& error, CLI::App& command, const CommonOptions& common) {
  const bool is_field = dynamic_cast<const BadField*>(&error) != nullptr;
  const std::string option = is_field ? option_of_field(command, error.where()) : "";
  if (option.empty()) return print_error(error, common);
  return print_error(BadOption(option, error.at(), error.problems()), common);
}

/// A command and what the job of this folder does for it.
int run(const Command& command, CommonOptions common, const std::optional<FolderJob>& job) {
  try {
    if (job && !common.quiet) {
      const auto taken = taken_from_job(*command.parser, *job);
      if (!taken.empty())
        tell(tr("From {}: ", kJobFile), fmt::format("{}", fmt::join(taken, ", ")));
    }
    if (progress_lines_are_wanted()) {
      common.progress = progress_lines();
    } else if (!common.quiet && !common.json && isatty(STDERR_FILENO)) {
      common.progress = terminal_progress();
    }
    require_outputs_apart(*command.parser);
    common.unit = display_unit(common.units, ppi_of(*command.parser));
    const Result<Outcome> result = command.run(common);
    clear_progress();
    if (!result) {
      const Refusal& no = result.refusal();
      return print_refusal({{"refused", json_of(no)}}, common);
    }
    const Outcome& outcome = result.value();
    if (outcome.document.contains("refused")) return print_refusal(outcome.document, common);
    const int code = print_outcome(outcome, common);
    if (job) {
      FolderJob more = *job;
      const auto added = remember(*command.parser, more);
      if (!added.empty()) {
        write_job(".", more);
        if (!common.quiet)
          tell(tr("Remembered in {}: ", kJobFile), fmt::format("{}", fmt::join(added, ", ")));
      }
    }
    return code;
  } catch (const Error& e) {
    clear_progress();
    return print_naming_options(e, *command.parser, common);
  } catch (const std::exception&) {
    clear_progress();
    return print_error(current_error(), common);
  }
}

}  // namespace

/// "help" and "help measure", as well as "--help" and "measure --help".
std::vector<std::string> words_of_command_line(int argc, char** argv) {
  std::vector<std::string> words(argv + 1, argv + argc);
  if (words.empty() || words.front() != "help") return words;
  words.erase(words.begin());
  words.push_back("--help");
  return words;
}

int main(int argc, char** argv) {
  const std::vector<std::string> words = words_of_command_line(argc, argv);
  const auto has = [&](const char* word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  if (!has("--json")) translate_texts();  // what programs read stays English
  CLI::App root(
      tr("Front/back registration for two-sided cards.\n"
         "A job: target -> print -> punch -> scan -> measure -> profile -> advise -> impose."),
      "versolay");
  root.formatter(std::make_shared<HelpFormat>(terminal_columns(STDOUT_FILENO)));
  root.set_version_flag("--version", kSoftware, tr("Print the version and exit"));
  root.require_subcommand(1);

  CommonOptions common;
  std::vector<Command> commands;
  for (const Group& group : kGroups) {
    for (AddCommand add : group.commands) {
      commands.push_back(add(root));
      commands.back().parser->group(tr(group.name));
      add_common_options(commands.back(), common);
    }
  }
  say_help_in_language(root);

  std::optional<FolderJob> job;
  try {
    if (words.empty()) {
      std::cout << wrapped_for(first_words("."), terminal_columns(STDOUT_FILENO)) << "\n";
      return kDone;
    }
    if (!has("--no-job") && !has("--help") && !has("-h") && !has("--version")) job = read_job(".");
    for (const Command& command : commands) {
      if (job && command.parser->get_name() == words.front()) offer_job(*command.parser, *job);
    }
    require_values(root, words);
    root.parse(std::vector<std::string>(words.rbegin(), words.rend()));
  } catch (const CLI::ParseError& e) {
    if (e.get_exit_code() == 0) return root.exit(e) == 0 ? kDone : kBadUse;
    common.json = has("--json");
    return print_error(Error("", finding_of(e, root, words)), common, where_to_read_on(root));
  } catch (const BadOption& e) {
    common.json = has("--json");
    return print_error(e, common);
  } catch (const std::exception&) {
    common.json = has("--json");
    return print_error(current_error(), common);
  }
  for (const Command& command : commands) {
    if (command.parser->parsed()) return run(command, common, job);
  }
  return kBadUse;
}

}  // namespace versolay::cli

int main(int argc, char** argv) { return versolay::cli::main(argc, argv); }
