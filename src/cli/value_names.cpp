#include "cli/value_names.h"

#include <string>
#include <utility>

namespace versolay::cli {
namespace {

constexpr std::pair<const char*, const char*> kValueNames[] = {
    {"--back", "PICTURE"},
    {"--back-bleed", "MM"},
    {"--back-edge", "auto|white|plain|pattern|picture"},
    {"--backs", "PAGES"},
    {"--border", "MM"},
    {"--card", "WxH"},
    {"--confidence", "SHARE"},
    {"--corner-radius", "MM"},
    {"--count", "card|sheet"},
    {"--coverage", "SHARE"},
    {"--cut-card", "FILE"},
    {"--cut-sd", "MM"},
    {"--datum", "auto|holes|edges"},
    {"--draws", "auto|full"},
    {"--fit", "fill|fit|crop"},
    {"--front-bleed", "MM"},
    {"--geometry", "FILE"},
    {"--grid", "CxR"},
    {"--grow", "equal|proportional|per-axis"},
    {"--guides", "NAME"},
    {"--gutter", "MM"},
    {"--margin", "MM"},
    {"--out", "FILE"},
    {"--out-folder", "FOLDER"},
    {"--overlay", "FOLDER"},
    {"--oversize", "MM"},
    {"--paper", "SIZE"},
    {"--pdf", "FILE"},
    {"--ppi", "PPI"},
    {"--preview", "FOLDER"},
    {"--print-card", "FILE"},
    {"--profile", "FILE"},
    {"--step", "MM"},
    {"--turn", "long-edge|short-edge"},
    {"profile", "FILE"},
    {"readings", "FILE"},
    {"scans", "FILE"},
};

}  // namespace

void name_values(CLI::App& command) {
  for (const auto& [name, value] : kValueNames) {
    CLI::Option* option = command.get_option_no_throw(name);
    if (option != nullptr && option->get_type_size_max() != 0) option->type_name(value);
  }
  for (CLI::App* sub : command.get_subcommands({})) name_values(*sub);
}

}  // namespace versolay::cli
