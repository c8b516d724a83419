// What the parser of the command line lets pass, and nobody means.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace versolay::cli {

/// "--out= --force" and "--out --force": the next option is not the value of this one. Throws
/// BadOption.
void require_values(const CLI::App& root, const std::vector<std::string>& words);

/// Throws Error when a file that the command writes is one of those that it reads.
void require_outputs_apart(CLI::App& command);

}  // namespace versolay::cli
