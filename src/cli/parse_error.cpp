#include "cli/parse_error.h"

#include <algorithm>

#include "cli/command_description.h"
#include "cli/suggestion.h"

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
    if (!suggestion.empty()) return name + " is not known" + suggestion;
  }
  return "";
}

}  // namespace

std::string words_of(const CLI::ParseError& error, const CLI::App& root,
                     const std::vector<std::string>& words) {
  std::string message = suggestion_for(root, words);
  if (message.empty()) message = error.what();
  const auto parsed = root.get_subcommands();
  return message + "\n" +
         (parsed.empty() ? "versolay --help lists the commands."
                         : "versolay " + parsed.front()->get_name() +
                               " --help explains the options, with an example.");
}

}  // namespace versolay::cli
