// The options that several commands have: one function each, so that name, value and help are said
// once. What a command adds to one of them it says by the field: an optional one has no default.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <set>
#include <string>

#include "layout/artwork_place.h"
#include "layout/grid.h"
#include "versolay/layout.h"
#include "versolay/paper.h"

namespace versolay::cli {

CLI::Option* add_paper(CLI::App& parser, Paper& paper);
/// @param otherwise  for help: the paper, the turn where none is given, "the profile's, else a4".
CLI::Option* add_paper(CLI::App& parser, std::optional<Paper>& paper, const std::string& otherwise);
CLI::Option* add_turn(CLI::App& parser, Turn& turn);
CLI::Option* add_turn(CLI::App& parser, std::optional<Turn>& turn, const std::string& otherwise);
CLI::Option* add_sheets(CLI::App& parser, int& sheets);
CLI::Option* add_fed_round(CLI::App& parser, std::set<int>& sheets);

CLI::Option* add_card(CLI::App& parser, CardSize& card);
CLI::Option* add_grid(CLI::App& parser, std::optional<GridShape>& grid);
CLI::Option* add_gutter(CLI::App& parser, double& mm);
CLI::Option* add_margin(CLI::App& parser, Margins& margins);
CLI::Option* add_oversize(CLI::App& parser, std::optional<Reach>& oversize);

/// "--back-edge"; nullopt: not stated.
CLI::Option* add_back_edge(CLI::App& parser, std::optional<EdgeKind>& edge);

CLI::Option* add_coverage(CLI::App& parser, double& coverage);
CLI::Option* add_confidence(CLI::App& parser, double& confidence);
CLI::Option* add_ppi(CLI::App& parser, double& ppi);
CLI::Option* add_no_rotation(CLI::App& parser, bool& can_rotate);
CLI::Option* add_no_scale(CLI::App& parser, bool& can_scale);
CLI::Option* add_seed(CLI::App& parser, std::uint64_t& seed);

/// The argument "profile"; required.
CLI::Option* add_profile_argument(CLI::App& parser, std::filesystem::path& profile);
/// "--recentre".
CLI::Option* add_recentre(CLI::App& parser, std::optional<std::filesystem::path>& readings);
/// "--feed", "--stock" and "--quality".
void add_set_up(CLI::App& parser, std::string& feed, std::string& stock, std::string& quality);
/// "--out"; `what` is written.
CLI::Option* add_out(CLI::App& parser, std::filesystem::path& out, const std::string& what);

}  // namespace versolay::cli
