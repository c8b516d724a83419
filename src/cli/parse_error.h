// Error messages for a command line that cannot be parsed.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "versolay/finding.h"

namespace versolay::cli {

/// The word that is not known and the one that was probably meant, the option that is missing, or
/// the parser's complaint. `words` are those of the command line, without the program.
Finding finding_of(const CLI::ParseError& error, const CLI::App& root,
                   const std::vector<std::string>& words);

/// Which help explains it.
std::string where_to_read_on(const CLI::App& root);

}  // namespace versolay::cli
