// What every command of the command line shares: options, outcome, exit codes.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "cli/table_layout.h"
#include "core/json.h"
#include "core/progress.h"
#include "versolay/result.h"
#include "words/display_unit.h"

namespace versolay::cli {

enum ExitCode {
  kDone = 0,
  kNo = 1,      // the answer is no, or the data do not allow one
  kBadUse = 2,  // bad option, unreadable or malformed input, failed write
  kDoneWithWarnings = 3,
};

struct CommonOptions {
  bool json = false;        // one JSON document on stdout instead of text
  bool quiet = false;       // no text on stdout, no progress
  bool force = false;       // outputs may replace existing files
  bool no_job = false;      // what the folder remembers is not used
  Units units = Units::mm;  // that were asked for
  DisplayUnit unit;         // that distances are said in: mm for programs
  Progress progress;        // set when stderr is a terminal
};

/// A sentence of the text that a program may show in a place of its own.
struct NamedPart {
  std::string about;
  std::string text;
};

/// What a command has to say when it is done.
struct Outcome {
  PrintedText text;       // for people; ends without a newline
  bool verbatim = false;  // the text is for a file: never wrapped
  Json document;          // for programs; "warnings", "text" and "parts" are added by the caller
  std::vector<NamedPart> parts;
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

}  // namespace versolay::cli
