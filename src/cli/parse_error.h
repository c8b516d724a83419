// Error messages for a command line that cannot be parsed.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace versolay::cli {

/// The parser's reason, or the word that is not known and the one that was probably meant; then
/// where to read on. `words` are those of the command line, without the program.
std::string words_of(const CLI::ParseError& error, const CLI::App& root,
                     const std::vector<std::string>& words);

}  // namespace versolay::cli
