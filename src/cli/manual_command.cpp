#include "cli/command.h"
#include "cli/command_description.h"
#include "cli/manual_page.h"
#include "cli/suggestion.h"
#include "core/files.h"
#include "core/software.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

struct ManualOptions {
  std::string command;
  std::string out_folder;
};

const CommandDescription& command_named(const CommandDescription& program,
                                        const std::string& name) {
  if (name.empty()) return program;
  std::vector<std::string> names;
  for (const CommandDescription& command : program.commands) {
    if (command.name == name) return command;
    names.push_back(command.name);
  }
  const auto near = nearest_word(name, names);
  throw Error(name,
              near ? findings::unknown_command_resembles(*near) : findings::unknown_command());
}

Outcome write_all(const CommandDescription& program, const std::filesystem::path& folder,
                  bool replace) {
  std::vector<const CommandDescription*> commands = {&program};
  for (const CommandDescription& command : program.commands) commands.push_back(&command);
  Outcome outcome;
  Json files = Json::array();
  const auto file_of = [&](const CommandDescription& command) {
    return folder / (manual_page_name(program, command) + ".1");
  };
  for (const auto* command : commands) check_output(file_of(*command), replace);
  for (const auto* command : commands) {
    write_file_atomically(file_of(*command), manual_page(program, *command, kSoftware), replace);
    files.push_back(file_of(*command).string());
  }
  outcome.text = tr("{} manual pages written to {}.", commands.size(), folder.string());
  outcome.document = {{"files", files}};
  return outcome;
}

}  // namespace

Command add_manual(CLI::App& root) {
  auto options = make_options<ManualOptions>();
  CLI::App* parser = root.add_subcommand("manual", tr("Print the manual page of a command"));
  parser->add_option("command", options->command, tr("the command; without it, the whole program"));
  parser->add_option("--out-folder", options->out_folder, tr("write all pages into this folder"));
  parser->footer(tr("Example: versolay manual target | man -l -"));
  return {parser, [options, &root](const CommonOptions& common) -> Result<Outcome> {
            const CommandDescription program = describe(root);
            if (!options->out_folder.empty()) {
              return write_all(program, options->out_folder, common.force);
            }
            Outcome outcome;
            std::string page =
                manual_page(program, command_named(program, options->command), kSoftware);
            page.pop_back();  // the caller ends the line
            outcome.document = {{"manual", page}};
            outcome.text = std::move(page);
            outcome.verbatim = true;
            return outcome;
          }};
}

}  // namespace versolay::cli
