#include "cli/command_line_check.h"

#include <filesystem>

#include "cli/bad_option.h"
#include "cli/typed_option.h"
#include "core/files.h"
#include "words/findings.h"

namespace versolay::cli {
namespace {

/// nullptr: none has this name.
const CLI::App* subcommand(const CLI::App& app, const std::string& name) {
  const auto named =
      app.get_subcommands([&](const CLI::App* command) { return command->get_name() == name; });
  return named.empty() ? nullptr : named.front();
}

const CLI::Option* option_of(const CLI::App& command, const std::string& word) {
  if (!word.starts_with("-")) return nullptr;
  return command.get_option_no_throw(word.substr(0, word.find('=')));
}

void add_files(CLI::App& command, FileUse use, std::vector<std::filesystem::path>& files) {
  for (CLI::Option* option :
       command.get_options([&](CLI::Option* o) { return use_of(*o) == use; })) {
    for (const std::string& name : option->as<std::vector<std::string>>()) {
      if (!name.empty()) files.emplace_back(name);
    }
  }
  for (CLI::App* action : command.get_subcommands()) add_files(*action, use, files);
}

}  // namespace

void require_values(const CLI::App& root, const std::vector<std::string>& words) {
  const CLI::App* command = &root;
  for (std::size_t i = 0; i < words.size() && words[i] != "--"; ++i) {
    if (const CLI::App* named = subcommand(*command, words[i])) command = named;
    const CLI::Option* option = option_of(*command, words[i]);
    if (option == nullptr || option->get_items_expected_min() == 0) continue;
    const bool joined = words[i].find('=') != std::string::npos;
    const bool next_is_option =
        i + 1 < words.size() && option_of(*command, words[i + 1]) != nullptr;
    if (joined ? words[i].ends_with('=') : next_is_option) {
      throw BadOption(option->get_name(), findings::value_expected());
    }
  }
}

void require_outputs_apart(CLI::App& command) {
  std::vector<std::filesystem::path> inputs;
  add_files(command, FileUse::read, inputs);
  std::vector<std::filesystem::path> outputs;
  add_files(command, FileUse::written, outputs);
  for (const auto& output : outputs) require_not_an_input(output, inputs);
}

}  // namespace versolay::cli
