// The options that describe cards to be judged by a profile: `advise` and `report`.
#pragma once

#include <CLI/CLI.hpp>

#include "app/advise.h"

namespace versolay::cli {

/// `request` must outlive the parser. What it holds already are the defaults; a command that needs
/// --card makes it required.
void add_advise_options(CLI::App& parser, AdviseRequest& request);

}  // namespace versolay::cli
