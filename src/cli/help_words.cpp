#include "cli/help_words.h"

#include "words/translation.h"

namespace versolay::cli {
namespace {

/// As CLI11 writes them, and the names of values of option_values.cpp.
constexpr const char* kLabels[] = {
    tr_noop("Usage"),     tr_noop("OPTIONS"), tr_noop("SUBCOMMAND"), tr_noop("Positionals"),
    tr_noop("REQUIRED"),  tr_noop("TEXT"),    tr_noop("INT"),        tr_noop("UINT"),
    tr_noop("FLOAT"),     tr_noop("FILE"),    tr_noop("FOLDER"),     tr_noop("NAME"),
    tr_noop("PAGES"),     tr_noop("PICTURE"), tr_noop("SHARE"),      tr_noop("SIZE"),
    tr_noop("PICTURES"),  tr_noop("WORDS"),   tr_noop("SHEET"),      tr_noop("SHEETS"),
    tr_noop("CODE"),      tr_noop("LENGTH"),  tr_noop("REASON"),     tr_noop("THICKNESS"),
    tr_noop("NAME,NAME"), tr_noop("Excludes")};
constexpr const char* kOptions = tr_noop("Options");
constexpr const char* kSubcommands = tr_noop("Subcommands");

/// Sentences of CLI11; {} is the option or argument.
constexpr const char* kComplaints[] = {tr_noop("{} is required"),
                                       tr_noop("{}: 1 required TEXT missing"),
                                       tr_noop("Could not convert: {}")};

}  // namespace

void say_help_in_language(CLI::App& app) {
  for (const char* label : kLabels) app.get_formatter()->label(label, tr(label));
  if (app.get_group() == kSubcommands) app.group(tr(kSubcommands));
  app.get_help_ptr()->description(tr("Print this help message and exit"));
  for (CLI::Option* option : app.get_options({})) {
    if (option->get_group() == kOptions) option->group(tr(kOptions));
  }
  for (CLI::App* command : app.get_subcommands({})) say_help_in_language(*command);
}

std::string complaint_of(const CLI::ParseError& error) {
  const std::string text = error.what();
  for (const std::string complaint : kComplaints) {
    const std::size_t at = complaint.find("{}");
    const std::string start = complaint.substr(0, at);
    const std::string end = complaint.substr(at + 2);
    if (text.size() < start.size() + end.size() || !text.starts_with(start) ||
        !text.ends_with(end)) {
      continue;
    }
    const std::string name = text.substr(at, text.size() - start.size() - end.size());
    return translated(complaint.c_str(), fmt::make_format_args(name));
  }
  return text;
}

}  // namespace versolay::cli
