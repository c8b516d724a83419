#include "cli/parse_error.h"

#include <algorithm>

#include "cli/command_description.h"
#include "cli/help_words.h"
#include "cli/suggestion.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

/// What could stand where a word was not understood: a command, or an option of the command.
std::vector<std::string> known_words(const CLI::App& root, const CLI::App* command) {
  std::vector<std::string> known;
  for (const CommandDescription& c : describe(root).commands) {
    if (command == nullptr) {
      known.push_back(c.name);
    } else if (c.name == command->get_name()) {
      for (const OptionDescription& option : c.options) {
        known.insert(known.end(), option.names.begin(), option.names.end());
      }
    }
  }
  return known;
}

std::string suggestion_for(const CLI::App& root, const std::vector<std::string>& words) {
  const auto parsed = root.get_subcommands();
  const CLI::App* command = parsed.empty() ? nullptr : parsed.front();
  const std::vector<std::string> known = known_words(root, command);
  for (const std::string& word : words) {
    const std::string name = word.substr(0, word.find('='));
    if (command != nullptr && name.rfind("--", 0) != 0) continue;
    const std::string suggestion = did_you_mean(name, known);
    if (!suggestion.empty()) return tr("{} is not known{}", name, suggestion);
  }
  return "";
}

/// What was not said, and what it is: "Missing: --out (PDF to write)".
std::string missing_option(const CLI::App& root) {
  for (const CLI::App* command : root.get_subcommands()) {
    for (const CLI::Option* option : command->get_options()) {
      if (!option->get_required() || option->count() > 0) continue;
      return tr("Missing: {} ({})", option->get_name(), option->get_description());
    }
  }
  return "";
}

}  // namespace

std::string words_of(const CLI::ParseError& error, const CLI::App& root,
                     const std::vector<std::string>& words) {
  std::string message = suggestion_for(root, words);
  if (message.empty() && dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) {
    message = missing_option(root);
  }
  if (message.empty()) message = complaint_of(error);
  const auto parsed = root.get_subcommands();
  return message + "\n" +
         (parsed.empty() ? tr("versolay --help lists the commands.")
                         : tr("versolay {} --help explains the options, with an example.",
                              parsed.front()->get_name()));
}

}  // namespace versolay::cli
