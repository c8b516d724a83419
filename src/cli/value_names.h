// What stands behind an option in the help: "--turn long-edge|short-edge" instead of "--turn TEXT".
#pragma once

#include <CLI/CLI.hpp>

namespace versolay::cli {

/// Names the values of the options of a command, the same in all commands. Closed lists are
/// written "a|b": completion offers them. Options that nobody named keep the parser's TEXT.
void name_values(CLI::App& command);

}  // namespace versolay::cli
