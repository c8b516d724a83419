#include "cli/shared_options.h"

#include "cli/option_values.h"
#include "layout/card_format.h"
#include "words/translation.h"

namespace versolay::cli {
namespace {

std::string paper_help() {
  return tr("a4, a3, letter, tabloid, or width x height, such as 210x297 or 13x19in");
}
std::string turn_help() { return tr("how the sheet is turned for its back"); }
std::string with_default(const std::string& help, const std::string& otherwise) {
  return tr("{} (default: {})", help, otherwise);
}

}  // namespace

CLI::Option* add_paper(CLI::App& parser, Paper& paper) {
  return add_typed(parser, "--paper", paper, paper_size(), paper_help());
}

CLI::Option* add_paper(CLI::App& parser, std::optional<Paper>& paper,
                       const std::string& otherwise) {
  return add_typed(parser, "--paper", paper, optional(paper_size()),
                   with_default(paper_help(), otherwise));
}

CLI::Option* add_turn(CLI::App& parser, Turn& value) {
  return add_typed(parser, "--turn", value, turn(), turn_help());
}

CLI::Option* add_turn(CLI::App& parser, std::optional<Turn>& value, const std::string& otherwise) {
  return add_typed(parser, "--turn", value, optional(turn()), with_default(turn_help(), otherwise));
}

CLI::Option* add_sheets(CLI::App& parser, int& sheets) {
  return add_typed(parser, "--sheets", sheets, whole_number(), tr("number of sheets"));
}

CLI::Option* add_fed_round(CLI::App& parser, std::set<int>& sheets) {
  return add_typed(parser, "--fed-round", sheets, sheet_numbers(),
                   tr("sheets that are printed rotated by 180 degrees, as in 2,4,6: a check of the "
                      "whole chain"));
}

CLI::Option* add_card(CLI::App& parser, CardSize& card) {
  return add_typed(
      parser, "--card", card, card_size(),
      tr("finished size, such as 63x88 (mm) or 744x1039px, or a name: {}", card_format_list()));
}

CLI::Option* add_grid(CLI::App& parser, std::optional<GridShape>& grid) {
  return add_typed(parser, "--grid", grid, grid_shape(),
                   tr("columns x rows of cards on the page, or auto: as many as fit"));
}

CLI::Option* add_gutter(CLI::App& parser, double& mm) {
  return add_typed(parser, "--gutter", mm, length(50), tr("between cards"));
}

CLI::Option* add_margin(CLI::App& parser, Margins& value) {
  return add_typed(
      parser, "--margin", value, margins(),
      tr("margin where the printer cannot print: one for every edge, or left,top,right,bottom"));
}

CLI::Option* add_oversize(CLI::App& parser, std::optional<Reach>& oversize) {
  return add_typed(
      parser, "--oversize", oversize, optional(reach()),
      tr("by how much the backs overlap the cut on each side, 0.7 or 0.7x0.5 or 8px (default: "
         "from the profile)"));
}

CLI::Option* add_back_edge(CLI::App& parser, std::optional<EdgeKind>& edge) {
  return add_typed(parser, "--back-edge", edge,
                   choice<std::optional<EdgeKind>>({{"auto", std::nullopt},
                                                    {"white", EdgeKind::white},
                                                    {"plain", EdgeKind::plain},
                                                    {"pattern", EdgeKind::pattern},
                                                    {"picture", EdgeKind::picture}}),
                   tr("what the edge of the backs is like; auto: report every kind"));
}

CLI::Option* add_coverage(CLI::App& parser, double& coverage) {
  return add_typed(parser, "--coverage", coverage, share(),
                   tr("share of future cards to be free of slivers"));
}

CLI::Option* add_confidence(CLI::App& parser, double& confidence) {
  return add_typed(parser, "--confidence", confidence, share(), tr("confidence of that promise"));
}

CLI::Option* add_ppi(CLI::App& parser, double& ppi) {
  return add_typed(parser, "--ppi", ppi, number("PPI"), tr("pixels per inch of the artwork"));
}

CLI::Option* add_no_rotation(CLI::App& parser, bool& can_rotate) {
  return add_off_switch(parser, "--no-rotation", can_rotate,
                        tr("move the backs, do not turn them"));
}

CLI::Option* add_no_scale(CLI::App& parser, bool& can_scale) {
  return add_off_switch(parser, "--no-scale", can_scale,
                        tr("move and turn the backs, do not scale them"));
}

CLI::Option* add_seed(CLI::App& parser, std::uint64_t& value) {
  return add_typed(parser, "--seed", value, seed(), tr("seed of the random numbers"));
}

CLI::Option* add_profile_argument(CLI::App& parser, std::filesystem::path& profile) {
  return add_typed(parser, "profile", profile, file(), tr("printer profile (JSON)"))->required();
}

CLI::Option* add_recentre(CLI::App& parser, std::optional<std::filesystem::path>& readings) {
  return add_typed(parser, "--recentre", readings, optional(file()),
                   tr("readings of 2 or 3 fresh target sheets, for a job of the same day: takes "
                      "the shift from them, the spread from the profile"));
}

void add_set_up(CLI::App& parser, std::string& feed, std::string& stock, std::string& quality) {
  add_typed(parser, "--feed", feed, words("WORDS"), tr("tray and guides, in your words"));
  add_typed(parser, "--stock", stock, words("WORDS"), tr("the paper, in your words"));
  add_typed(parser, "--quality", quality, words("WORDS"), tr("quality setting, in your words"));
}

CLI::Option* add_out(CLI::App& parser, std::filesystem::path& out, const std::string& what) {
  return add_typed(parser, "--out,-o", out, output_file(), what);
}

}  // namespace versolay::cli
