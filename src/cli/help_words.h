// The words that the parser itself adds to help texts and error messages.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace versolay::cli {

/// Titles, labels and the line of --help in the language of the reader, of a program whose commands
/// and options are complete.
void say_help_in_language(CLI::App& app);

/// What the parser complains about, in the language of the reader where it is one of the common
/// complaints.
std::string complaint_of(const CLI::ParseError& error);

}  // namespace versolay::cli
