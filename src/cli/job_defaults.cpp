#include "cli/job_defaults.h"

#include <algorithm>
#include <map>

#include "cli/bad_option.h"
#include "words/findings.h"

namespace versolay::cli {
namespace {

/// The option or argument of that name, if the command has it.
CLI::Option* option_of(CLI::App& command, std::string_view key) {
  if (key == "readings" && command.get_name() == "check") return nullptr;  // wants new ones
  CLI::Option* named = command.get_option_no_throw("--" + std::string(key));
  return named != nullptr ? named : command.get_option_no_throw(std::string(key));
}

std::string as_typed(const CLI::Option& option, const std::string& key, const std::string& value) {
  return option.get_positional() ? value : "--" + key + " " + value;
}

/// The commands whose output is something that a job remembers.
const std::map<std::string, std::string>& key_of_output() {
  static const std::map<std::string, std::string> keys = {
      {"measure", "readings"}, {"readings", "readings"}, {"profile", "profile"}};
  return keys;
}

/// A job is made by its own command; a rehearsal and what looks at several printers are no part
/// of it.
bool takes_part(const CLI::App& command) {
  for (const char* other : {"job", "rehearse", "profiles", "compare"}) {
    if (command.get_name() == other) return false;
  }
  return true;
}

/// Another option was given that leaves no use for this one.
bool is_ruled_out(const CLI::Option& option) {
  const auto& others = option.get_excludes();
  return std::any_of(others.begin(), others.end(),
                     [](const CLI::Option* other) { return other->count() > 0; });
}

}  // namespace

void offer_job(CLI::App& command, const FolderJob& job) {
  if (!takes_part(command)) return;
  for (const auto& [key, value] : job.remembered) {
    CLI::Option* option = option_of(command, key);
    if (option == nullptr) continue;
    const std::string where = std::string(kJobFile) + " (" + key + " " + value + ")";
    try {
      option->run_callback_for_default()->default_val(value);
    } catch (const CLI::Error& e) {
      throw Error(where, findings::command_line_wrong(e.what()));
    } catch (const Error& e) {
      throw Error(where, e.at(), e.problems());
    }
    option->required(false);
  }
}

void require_value_of_job(CLI::App& root, const std::string& key, const std::string& value) {
  for (CLI::App* command : root.get_subcommands({})) {
    CLI::Option* option = takes_part(*command) ? option_of(*command, key) : nullptr;
    if (option == nullptr) continue;
    try {
      option->run_callback_for_default()->default_val(value);
    } catch (const CLI::Error& e) {
      throw BadOption("--" + key, value, findings::command_line_wrong(e.what()));
    }
  }
}

const CLI::Option* option_of_job(CLI::App& root, std::string_view key) {
  for (CLI::App* command : root.get_subcommands({})) {
    const CLI::Option* option = takes_part(*command) ? option_of(*command, key) : nullptr;
    if (option != nullptr) return option;
  }
  return nullptr;
}

std::vector<std::string> taken_from_job(CLI::App& command, const FolderJob& job) {
  std::vector<std::string> taken;
  if (!takes_part(command)) return taken;
  for (const std::string_view known : kJobKeys) {
    const std::string key(known);
    const auto value = job.find(key);
    const CLI::Option* option = value ? option_of(command, key) : nullptr;
    if (option != nullptr && option->count() == 0 && !is_ruled_out(*option))
      taken.push_back(as_typed(*option, key, *value));
  }
  return taken;
}

std::vector<std::string> remember(CLI::App& command, FolderJob& job) {
  std::vector<std::string> added;
  if (!takes_part(command)) return added;
  const auto add = [&](const std::string& key, const CLI::Option* given) {
    if (given == nullptr || given->count() != 1) return;
    if (job.remembered.emplace(key, given->as<std::string>()).second) {
      added.push_back(key + " " + job.remembered[key]);
    }
  };
  for (const std::string_view key : kJobKeys) add(std::string(key), option_of(command, key));
  const CLI::Option* makes_template = command.get_option_no_throw("--template");
  if (makes_template != nullptr && makes_template->count() > 0) return added;  // no readings yet
  const auto output = key_of_output().find(command.get_name());
  if (output != key_of_output().end()) add(output->second, option_of(command, "out"));
  return added;
}

}  // namespace versolay::cli
