// The parser's description of a command: the only source of --help, the manual pages and the shell
// completion.
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace versolay::cli {

struct OptionDescription {
  std::vector<std::string> names;  // "--out"; empty for an argument without a name
  std::string argument;            // name of the argument where it has one: "profile"
  std::string value;               // what it takes: "FILE", "long-edge|short-edge"; empty: a flag
  std::string text;
  std::string default_value;
  bool required = false;
  bool repeatable = false;

  /// The values where they are a closed list, as in "long-edge|short-edge"; otherwise empty.
  std::vector<std::string> choices() const;
};

struct CommandDescription {
  std::string name;
  std::string text;
  std::string footer;  // the example, most often
  std::vector<OptionDescription> options;
  std::vector<CommandDescription> commands;
};

CommandDescription describe(const CLI::App& app);

}  // namespace versolay::cli
