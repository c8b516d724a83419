// Help texts as wide as the terminal.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace versolay::cli {

/// Words are wrapped beside the names of the options; a name that leaves no gap has its line to
/// itself. Examples stay as they are, to be copied. `columns` 0 (no terminal): nothing is wrapped.
class HelpFormat : public CLI::Formatter {
 public:
  explicit HelpFormat(int columns) : columns_(columns) {}

  std::string make_description(const CLI::App* app) const override;
  std::string make_usage(const CLI::App* app, std::string name) const override;
  std::string make_subcommand(const CLI::App* command) const override;
  std::string make_option(const CLI::Option* option, bool is_positional) const override;

 private:
  std::string beside(const std::string& name, const std::string& words) const;

  int columns_;
};

}  // namespace versolay::cli
