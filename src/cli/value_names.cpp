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
    {"--blocks", "auto|1|2"},
    {"--border", "MM"},
    {"--by", "holes|verniers|values"},
    {"--card", "WxH"},
    {"--cards", "N"},
    {"--compare", "NAME,NAME"},
    {"--confidence", "SHARE"},
    {"--corner-radius", "MM"},
    {"--count", "card|sheet"},
    {"--coverage", "SHARE"},
    {"--cut-card", "FILE"},
    {"--cut-sd", "MM"},
    {"--datum", "auto|holes|edges"},
    {"--dpi", "DPI"},
    {"--draws", "auto|full"},
    {"--exclude", "SHEET"},
    {"--fed-round", "SHEETS"},
    {"--feed", "WORDS"},
    {"--fit", "fill|fit|crop"},
    {"--forget", "NAME"},
    {"--front-bleed", "MM"},
    {"--fronts", "PICTURES"},
    {"--geometry", "FILE"},
    {"--grid", "CxR"},
    {"--grow", "equal|proportional|per-axis"},
    {"--guides", "NAME"},
    {"--gutter", "MM"},
    {"--holes", "punched|pricked|none"},
    {"--job", "NAME"},
    {"--label", "WORDS"},
    {"--laminated-mm", "MM/MM"},
    {"--margin", "MM"},
    {"--out", "FILE"},
    {"--out-folder", "FOLDER"},
    {"--overlay", "FOLDER"},
    {"--oversize", "MM"},
    {"--paper", "SIZE"},
    {"--paper-thickness", "THICKNESS"},
    {"--pdf", "FILE"},
    {"--pictures", "whole|halves|shifted"},
    {"--pouch-thickness", "THICKNESS"},
    {"--ppi", "PPI"},
    {"--preview", "FOLDER"},
    {"--print-card", "FILE"},
    {"--printer", "NAME"},
    {"--profile", "FILE"},
    {"--proof-sheets", "N"},
    {"--quality", "WORDS"},
    {"--readings", "FILE"},
    {"--run", "CODE"},
    {"--scans", "N"},
    {"--sd", "MM"},
    {"--seed", "N"},
    {"--separator", "comma|semicolon|tab"},
    {"--sheets", "N"},
    {"--step", "MM"},
    {"--stock", "WORDS"},
    {"--ticks", "MM"},
    {"--turn", "long-edge|short-edge"},
    {"--units", "mm|px|in"},
    {"--why", "REASON"},
    {"files", "FILE"},
    {"input", "FILE"},
    {"places", "FILE"},
    {"profile", "FILE"},
    {"readings", "FILE"},
    {"scans", "FILE"},
    {"table", "FILE"},
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
