// Fills in missing options from the job of the folder, and records options for the next command.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "app/job.h"

namespace versolay::cli {

/// Before parsing: every option and argument of every command that the job remembers gets the
/// remembered value as its default. Throws Error when a value does not suit the option.
void offer_job(CLI::App& root, const Job& job);

/// After parsing: which of them this command really takes from the job, as typed: "--paper a4".
std::vector<std::string> taken_from_job(CLI::App& command, const Job& job);

/// After a command has run: adds its options and outputs to the job; existing entries are not
/// changed. A command that writes readings or a profile records its --out.
/// @return what was added, as typed.
std::vector<std::string> remember(CLI::App& command, Job& job);

}  // namespace versolay::cli
