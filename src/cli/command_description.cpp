#include "cli/command_description.h"

#include <CLI/CLI.hpp>

namespace versolay::cli {
namespace {

OptionDescription describe(const CLI::Option& option) {
  OptionDescription d;
  for (const std::string& name : option.get_snames()) d.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) d.names.push_back("--" + name);
  if (option.get_positional()) d.argument = option.get_name(true);
  if (option.get_type_size_max() != 0) d.value = option.get_type_name();
  d.text = option.get_description();
  d.default_value = option.get_default_str();
  d.required = option.get_required();
  d.repeatable = option.get_items_expected_max() > 1;
  return d;
}

}  // namespace

std::vector<std::string> OptionDescription::choices() const {
  std::vector<std::string> found;
  if (value.find('|') == std::string::npos) return found;
  for (std::size_t from = 0; from <= value.size();) {
    const std::size_t bar = std::min(value.find('|', from), value.size());
    found.push_back(value.substr(from, bar - from));
    from = bar + 1;
  }
  return found;
}

CommandDescription describe(const CLI::App& app) {
  CommandDescription d;
  d.name = app.get_name();
  d.text = app.get_description();
  d.footer = app.get_footer();
  for (const CLI::Option* option : app.get_options({})) d.options.push_back(describe(*option));
  for (const CLI::App* command : app.get_subcommands({})) d.commands.push_back(describe(*command));
  return d;
}

}  // namespace versolay::cli
