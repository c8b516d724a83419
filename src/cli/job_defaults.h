// Fills in missing options from the job of the folder, and records options for the next command.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/folder_job.h"

namespace versolay::cli {

/// Before parsing: every option and argument of the command that the job remembers gets the
/// remembered value as its default. Throws Error, naming the job, when a value does not suit the
/// option.
void offer_job(CLI::App& command, const FolderJob& job);

/// Throws BadOption when a command that would use the value cannot.
void require_value_of_job(CLI::App& root, const std::string& key, const std::string& value);

/// An option or argument that the key stands for; nullptr: no command has one.
const CLI::Option* option_of_job(CLI::App& root, std::string_view key);

/// After parsing: which of them this command really takes from the job, as typed: "--paper a4".
std::vector<std::string> taken_from_job(CLI::App& command, const FolderJob& job);

/// After a command has run: adds its options and outputs to the job; existing entries are not
/// changed. A command that writes readings or a profile records its --out.
/// @return what was added, as typed.
std::vector<std::string> remember(CLI::App& command, FolderJob& job);

}  // namespace versolay::cli
