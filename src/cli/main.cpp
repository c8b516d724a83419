// versolay: argv in, one of the commands run, text or JSON out, exit code as promised.
#include <unistd.h>

#include <cstdio>
#include <iostream>
#include <map>

#include "cli/command.h"
#include "cli/terminal.h"
#include "core/registration_json.h"
#include "core/software.h"

namespace versolay::cli {
namespace {

void add_common_options(Command& command, CommonOptions& common) {
  command.parser->add_flag("--json", common.json, "Print one JSON document instead of text");
  command.parser->add_flag("--quiet", common.quiet, "Print nothing but errors");
  command.parser->add_flag("--force", common.force, "Replace outputs that exist already");
}

int print_outcome(const Outcome& outcome, const CommonOptions& common) {
  if (common.json) {
    Json document = outcome.document;
    if (!document.contains("warnings")) document["warnings"] = json_of(outcome.warnings);
    std::cout << to_text(document);
  } else if (!common.quiet) {
    std::cout << outcome.text << "\n";
    if (!outcome.next.empty()) std::cout << "\nNext: " << outcome.next << "\n";
  }
  if (!common.json) {
    for (const Notice& n : outcome.warnings) std::cerr << "Note: " << n.message << "\n";
  }
  std::cout.flush();
  return outcome.warnings.empty() ? kDone : kDoneWithWarnings;
}

int print_refusal(const Refusal& refusal, const CommonOptions& common) {
  if (common.json) {
    std::cout << to_text({{"refused", {{"code", refusal.code}, {"message", refusal.message}}}});
  }
  std::cerr << refusal.message << "\n";
  return kNo;
}

int print_error(const std::string& what, const CommonOptions& common) {
  if (common.json) std::cout << to_text({{"error", {{"message", what}}}});
  std::cerr << "versolay: " << what << "\n";
  return kBadUse;
}

int run(const Command& command, CommonOptions common) {
  try {
    if (!common.quiet && !common.json && isatty(STDERR_FILENO)) {
      common.progress = terminal_progress();
    }
    const Result<Outcome> result = command.run(common);
    clear_progress();
    return result ? print_outcome(result.value(), common) : print_refusal(result.refusal(), common);
  } catch (const Error& e) {
    clear_progress();
    return print_error(e.what(), common);
  } catch (const std::bad_alloc&) {
    return print_error("not enough memory for this input", common);
  }
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App root(
      "Front/back registration for two-sided cards.\n"
      "A job: target -> print -> punch -> scan -> measure -> profile -> advise -> impose.",
      "versolay");
  root.set_version_flag("--version", kSoftware);
  root.require_subcommand(1);

  CommonOptions common;
  std::vector<Command> commands;
  for (AddCommand add : {
           add_target,
           add_measure,
           add_profile,
           add_advise,
           add_impose,
           add_correct,
           add_plan,
           add_compare,
           add_check,
           add_rehearse,
       }) {
    commands.push_back(add(root));
    add_common_options(commands.back(), common);
  }

  try {
    root.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    const int code = root.exit(e);
    return code == 0 ? kDone : kBadUse;
  }
  for (const Command& command : commands) {
    if (command.parser->parsed()) return run(command, common);
  }
  return kBadUse;
}

}  // namespace versolay::cli

int main(int argc, char** argv) { return versolay::cli::main(argc, argv); }
