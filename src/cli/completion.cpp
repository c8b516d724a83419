#include "cli/completion.h"

#include <fmt/format.h>

#include <algorithm>

namespace versolay::cli {
namespace {

std::string joined(const std::vector<std::string>& words, const char* between = " ") {
  return fmt::format("{}", fmt::join(words, between));
}

std::vector<std::string> command_names(const CommandDescription& program) {
  std::vector<std::string> names;
  for (const CommandDescription& c : program.commands) names.push_back(c.name);
  return names;
}

std::vector<std::string> option_names(const CommandDescription& command) {
  std::vector<std::string> names;
  for (const OptionDescription& o : command.options) {
    names.insert(names.end(), o.names.begin(), o.names.end());
  }
  return names;
}

/// In single quotes, for bash, zsh and fish.
std::string shell_quoted(const std::string& text) {
  std::string q = "'";
  for (const char c : text) q += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return q + "'";
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

/// case branches "command:--option) words" for options with a closed list of values.
std::string bash_choices(const CommandDescription& program) {
  std::string cases;
  for (const CommandDescription& command : program.commands) {
    for (const OptionDescription& option : command.options) {
      if (option.choices().empty()) continue;
      for (const std::string& name : option.names) {
        cases += fmt::format("    {}:{}) words={} ;;\n", command.name, name,
                             shell_quoted(joined(option.choices())));
      }
    }
  }
  return cases;
}

std::string bash_options(const CommandDescription& program) {
  std::string cases;
  for (const CommandDescription& command : program.commands) {
    std::vector<std::string> words = option_names(command);
    for (const CommandDescription& sub : command.commands) words.push_back(sub.name);
    cases += fmt::format("      {}) words={} ;;\n", command.name, shell_quoted(joined(words)));
  }
  return cases;
}

/// A name of a file stays the answer where nothing better is known, so `-o default`.
std::string bash_script(const CommandDescription& program) {
  return fmt::format(
      "# Completion of {0} for bash: source it, or keep it as a file named {0} in\n"
      "# ~/.local/share/bash-completion/completions.\n"
      "_{0}() {{\n"
      "  local current=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} words=''\n"
      "  local command=${{COMP_WORDS[1]}}\n"
      "  COMPREPLY=()\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W {1} -- \"$current\"))\n"
      "    return\n"
      "  fi\n"
      "  case \"$command:$before\" in\n"
      "{2}"
      "  esac\n"
      "  if [ -z \"$words\" ] && [[ $current == -* ]]; then\n"
      "    case \"$command\" in\n"
      "{3}"
      "    esac\n"
      "  fi\n"
      "  [ -z \"$words\" ] || COMPREPLY=($(compgen -W \"$words\" -- \"$current\"))\n"
      "}}\n"
      "complete -o default -F _{0} {0}\n",
      program.name, shell_quoted(joined(command_names(program)) + " --help --version"),
      bash_choices(program), bash_options(program));
}

/// Colons and brackets separate the parts of a zsh specification.
std::string zsh_text(const std::string& text) {
  std::string safe;
  for (const char c : first_line(text)) {
    if (c == ':' || c == '[' || c == ']' || c == '\\') safe += '\\';
    safe += c;
  }
  return safe;
}

std::string zsh_option(const OptionDescription& option, const std::string& name) {
  std::string spec =
      fmt::format("{}{}[{}]", option.repeatable ? "*" : "", name, zsh_text(option.text));
  if (!option.value.empty()) {
    const auto choices = option.choices();
    spec += choices.empty() ? fmt::format(":{}:_files", zsh_text(option.value))
                            : fmt::format(":value:({})", joined(choices));
  }
  return shell_quoted(spec);
}

std::string zsh_script(const CommandDescription& program) {
  std::string commands;
  std::string cases;
  for (const CommandDescription& command : program.commands) {
    commands += fmt::format("    {}\n", shell_quoted(command.name + ":" + zsh_text(command.text)));
    std::string options;
    for (const OptionDescription& option : command.options) {
      for (const std::string& name : option.names) options += " " + zsh_option(option, name);
    }
    cases += fmt::format("    {}) _arguments{} '*:file:_files' ;;\n", command.name, options);
  }
  return fmt::format(
      "#compdef {0}\n"
      "# Completion of {0} for zsh: keep it as a file named _{0} in a folder of $fpath.\n"
      "_{0}() {{\n"
      "  local -a commands\n"
      "  commands=(\n{1}  )\n"
      "  if (( CURRENT == 2 )); then\n"
      "    _describe command commands\n"
      "    return\n"
      "  fi\n"
      "  local command=$words[2]\n"
      "  shift words\n"
      "  (( CURRENT-- ))\n"
      "  case $command in\n{2}  esac\n"
      "}}\n"
      "compdef _{0} {0}\n",
      program.name, commands, cases);
}

std::string fish_script(const CommandDescription& program) {
  std::string text = fmt::format(
      "# Completion of {0} for fish: keep it as {0}.fish in ~/.config/fish/completions.\n",
      program.name);
  for (const CommandDescription& command : program.commands) {
    text += fmt::format("complete -c {} -n __fish_use_subcommand -f -a {} -d {}\n", program.name,
                        command.name, shell_quoted(first_line(command.text)));
    for (const OptionDescription& option : command.options) {
      for (const std::string& name : option.names) {
        const bool is_long = name.rfind("--", 0) == 0;
        text +=
            fmt::format("complete -c {} -n '__fish_seen_subcommand_from {}' {} {}", program.name,
                        command.name, is_long ? "-l" : "-s", name.substr(is_long ? 2 : 1));
        const auto choices = option.choices();
        if (!choices.empty()) {
          text += " -x -a " + shell_quoted(joined(choices));
        } else if (!option.value.empty()) {
          text += " -r";
        }
        text += " -d " + shell_quoted(first_line(option.text)) + "\n";
      }
    }
  }
  return text;
}

}  // namespace

std::optional<Shell> shell_from(std::string_view name) {
  if (name == "bash") return Shell::bash;
  if (name == "zsh") return Shell::zsh;
  if (name == "fish") return Shell::fish;
  return std::nullopt;
}

std::string completion_script(const CommandDescription& program, Shell shell) {
  switch (shell) {
    case Shell::bash:
      return bash_script(program);
    case Shell::zsh:
      return zsh_script(program);
    case Shell::fish:
      return fish_script(program);
  }
  return "";
}

}  // namespace versolay::cli
