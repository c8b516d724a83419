// What every command of the command line shares: options, outcome, exit codes.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "app/progress.h"
#include "cli/table_layout.h"
#include "core/json.h"
#include "layout/artwork_place.h"
#include "layout/grid.h"
#include "versolay/layout.h"
#include "versolay/paper.h"
#include "versolay/result.h"

namespace versolay::cli {

enum ExitCode {
  kDone = 0,
  kNo = 1,      // the answer is no, or the data do not allow one
  kBadUse = 2,  // bad option, unreadable or malformed input, failed write
  kDoneWithWarnings = 3,
};

struct CommonOptions {
  bool json = false;         // one JSON document on stdout instead of text
  bool quiet = false;        // no text on stdout, no progress
  bool force = false;        // outputs may replace existing files
  bool no_job = false;       // what the folder remembers is not used
  std::string units = "mm";  // that distances are said in
  Progress progress;         // set when stderr is a terminal
};

/// What a command has to say when it is done.
struct Outcome {
  PrintedText text;       // for people; ends without a newline
  bool verbatim = false;  // the text is for a file: never wrapped
  Json document;          // for programs; "warnings" is added by the caller
  Notices warnings;
  std::string next;  // the one command to run now, or empty
};

/// A command: its place in the parser and what to do when it was chosen.
struct Command {
  CLI::App* parser = nullptr;
  std::function<Result<Outcome>(const CommonOptions&)> run;
};

/// Each command has one file, cli/<name>_command.cpp, with a function of this shape.
using AddCommand = Command (*)(CLI::App& root);
Command add_target(CLI::App& root);
Command add_measure(CLI::App& root);
Command add_readings(CLI::App& root);
Command add_profile(CLI::App& root);
Command add_advise(CLI::App& root);
Command add_impose(CLI::App& root);
Command add_correct(CLI::App& root);
Command add_report(CLI::App& root);
Command add_rehearse(CLI::App& root);
Command add_plan(CLI::App& root);
Command add_compare(CLI::App& root);
Command add_check(CLI::App& root);
Command add_profiles(CLI::App& root);
Command add_job(CLI::App& root);
Command add_manual(CLI::App& root);
Command add_completion(CLI::App& root);

/// Options are shared with the run function, which outlives the function that adds the command.
template <class Options>
std::shared_ptr<Options> make_options() {
  return std::make_shared<Options>();
}

// Texts of options, turned into values. Each throws Error naming the option.
double option_number(const std::string& option, const std::string& text);
std::pair<double, double> option_pair(const std::string& option, const std::string& text);
Turn option_turn(const std::string& text);
/// For a text that is none of the words.
Error no_such_choice(const std::string& option, const std::string& text,
                     const std::vector<std::string>& words);
/// What one of several words stands for.
template <class Value>
Value option_choice(const std::string& option, const std::string& text,
                    const std::vector<std::pair<std::string, Value>>& choices) {
  std::vector<std::string> words;
  for (const auto& [word, value] : choices) {
    if (text == word) return value;
    words.push_back(word);
  }
  throw no_such_choice(option, text, words);
}
/// Numbers of sheets, as in "2,4,6"; none from an empty text.
std::set<int> option_sheets(const std::string& option, const std::string& text);
/// "63x88", or the name of a card format.
CardSize option_card(const std::string& text);
/// "3x3" columns x rows, or "auto": as many as fit.
std::optional<GridShape> option_grid(const std::string& text);
/// "5", or "left,top,right,bottom".
Margins option_margins(const std::string& text);
/// "0.7" for all sides, or "0.7x0.5" for left and right x top and bottom.
Reach option_oversize(const std::string& text);
/// The parts of a list with commas.
std::vector<std::string> comma_list(const std::string& text);

}  // namespace versolay::cli
