// Shell completion of commands, options and values, generated from the parser.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "cli/command_description.h"

namespace versolay::cli {

enum class Shell { bash, zsh, fish };
std::optional<Shell> shell_from(std::string_view name);  // "bash", "zsh", "fish"

/// The script to load into the shell.
std::string completion_script(const CommandDescription& program, Shell shell);

}  // namespace versolay::cli
