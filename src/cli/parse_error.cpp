#include "cli/parse_error.h"

#include <optional>

#include "cli/command_description.h"
#include "cli/help_words.h"
#include "cli/suggestion.h"
#include "words/findings.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

/// What could be meant where a word was not understood: a command, or an option of the command.
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

std::optional<Finding> suggestion_for(const CLI::App& root, const std::vector<std::string>& words) {
  const auto parsed = root.get_subcommands();
  const CLI::App* command = parsed.empty() ? nullptr : parsed.front();
  const std::vector<std::string> known = known_words(root, command);
  for (const std::string& word : words) {
    const std::string name = word.substr(0, word.find('='));
    if (command != nullptr && name.rfind("--", 0) != 0) continue;
    if (const auto near = nearest_word(name, known)) {
      return findings::unknown_word_resembles(name, *near);
    }
  }
  return std::nullopt;
}

/// What was not said, and what it is: --out, a PDF to write.
std::optional<Finding> missing_option(const CLI::App& root) {
  for (const CLI::App* command : root.get_subcommands()) {
    for (const CLI::Option* option : command->get_options()) {
      if (!option->get_required() || option->count() > 0) continue;
      return findings::option_missing(option->get_name(), option->get_description());
    }
  }
  return std::nullopt;
}

}  // namespace

Finding finding_of(const CLI::ParseError& error, const CLI::App& root,
                   const std::vector<std::string>& words) {
  if (const auto suggestion = suggestion_for(root, words)) return *suggestion;
  if (root.get_subcommands().empty() && !words.empty()) {
    return findings::unknown_words({words.front()});
  }
  if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) {
    if (const auto missing = missing_option(root)) return *missing;
  }
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    return findings::unknown_words(root.remaining(true));
  }
  return findings::command_line_wrong(complaint_of(error));
}

std::string where_to_read_on(const CLI::App& root) {
  const auto parsed = root.get_subcommands();
  return parsed.empty() ? tr("versolay --help lists the commands.")
                        : tr("versolay {} --help explains the options, with an example.",
                             parsed.front()->get_name());
}

}  // namespace versolay::cli
