// Manual pages (man(7)), generated from the parser.
#pragma once

#include <string>

#include "cli/command_description.h"

namespace versolay::cli {

/// Name of the page of a command: "versolay-target"; of the program itself: "versolay".
std::string manual_page_name(const CommandDescription& program, const CommandDescription& command);

/// The page in the man macros, section 1. `command` may be the program itself, whose page lists
/// the commands, the files and the exit codes.
std::string manual_page(const CommandDescription& program, const CommandDescription& command,
                        const std::string& version);

}  // namespace versolay::cli
