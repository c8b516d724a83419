#include "cli/manual_page.h"

#include <fmt/format.h>

#include "cli/command.h"

namespace versolay::cli {
namespace {

/// Text as the man macros need it: backslashes and hyphens kept, no line taken for a request.
std::string roff(const std::string& text) {
  std::string escaped;
  bool at_line_start = true;
  for (const char c : text) {
    if (at_line_start && (c == '.' || c == '\'')) escaped += "\\&";
    if (c == '\\') {
      escaped += "\\e";
    } else if (c == '-') {
      escaped += "\\-";
    } else {
      escaped += c;
    }
    at_line_start = c == '\n';
  }
  return escaped;
}

std::string names_of(const OptionDescription& option) {
  std::string names;
  for (const std::string& name : option.names) {
    names += fmt::format("{}\\fB{}\\fR", names.empty() ? "" : ", ", roff(name));
  }
  if (names.empty()) names = fmt::format("\\fI{}\\fR", roff(option.argument));
  if (!option.names.empty() && !option.value.empty()) {
    names += fmt::format(" \\fI{}\\fR", roff(option.value));
  }
  return names;
}

std::string synopsis(const CommandDescription& program, const CommandDescription& command) {
  std::string line = "\\fB" + roff(program.name) + "\\fR";
  if (command.name == program.name) return line + " \\fIcommand\\fR [\\fIoptions\\fR]";
  line += " \\fB" + roff(command.name) + "\\fR";
  for (const OptionDescription& option : command.options) {
    if (!option.required && !option.names.empty()) continue;
    std::string part = names_of(option);
    if (option.repeatable) part += " ...";
    line += option.required ? " " + part : " [" + part + "]";
  }
  return line + " [\\fIoptions\\fR]";
}

std::string options_section(const CommandDescription& command) {
  std::string text = ".SH OPTIONS\n";
  for (const OptionDescription& option : command.options) {
    text += fmt::format(
        ".TP\n{}\n{}{}{}\n", names_of(option), roff(option.text),
        option.required ? " (required)" : "",
        option.default_value.empty() ? "" : roff(fmt::format(" [{}]", option.default_value)));
  }
  return text;
}

std::string commands_section(const CommandDescription& command) {
  std::string text = ".SH COMMANDS\n";
  for (const CommandDescription& c : command.commands) {
    text += fmt::format(".TP\n\\fB{}\\fR\n{}\n", roff(c.name), roff(c.text));
  }
  return text;
}

std::string exit_section() {
  return fmt::format(
      ".SH EXIT STATUS\n.TP\n{}\ndone\n.TP\n{}\nthe answer is no, or the data do not allow one\n"
      ".TP\n{}\nbad use, or an input that cannot be read\n.TP\n{}\ndone, with warnings\n",
      static_cast<int>(kDone), static_cast<int>(kNo), static_cast<int>(kBadUse),
      static_cast<int>(kDoneWithWarnings));
}

std::string environment_section() {
  return ".SH ENVIRONMENT\n"
         ".TP\n\\fBNO_COLOR\\fR\nno bold or coloured text, when set\n"
         ".TP\n\\fBVERSOLAY_DATA\\fR\nfolder that holds the target designs (calib_targets), when "
         "they are not where they were installed\n"
         ".TP\n\\fBSOURCE_DATE_EPOCH\\fR\nstands for the date of now in every file that is "
         "written\n";
}

}  // namespace

std::string manual_page_name(const CommandDescription& program, const CommandDescription& command) {
  return command.name == program.name ? program.name : program.name + "-" + command.name;
}

std::string manual_page(const CommandDescription& program, const CommandDescription& command,
                        const std::string& version) {
  const bool whole = command.name == program.name;
  const std::string name = manual_page_name(program, command);
  const std::string first_line = command.text.substr(0, command.text.find('\n'));
  std::string page = fmt::format(".TH \"{}\" 1 \"\" \"{}\" \"User commands\"\n", name, version);
  page += fmt::format(".SH NAME\n{} \\- {}\n", roff(name), roff(first_line));
  page += fmt::format(".SH SYNOPSIS\n{}\n", synopsis(program, command));
  page += fmt::format(".SH DESCRIPTION\n.nf\n{}\n.fi\n", roff(command.text));
  if (!command.commands.empty()) page += commands_section(command);
  page += options_section(command);
  if (!command.footer.empty())
    page += fmt::format(".SH EXAMPLE\n.nf\n{}\n.fi\n", roff(command.footer));
  page += exit_section();
  if (whole) page += environment_section();
  page += ".SH SEE ALSO\n";
  if (whole) {
    std::string others;
    for (const CommandDescription& c : program.commands) {
      others += fmt::format("{}\\fB{}\\fR(1)", others.empty() ? "" : ", ",
                            roff(manual_page_name(program, c)));
    }
    return page + others + "\n";
  }
  return page + "\\fB" + roff(program.name) + "\\fR(1)\n";
}

}  // namespace versolay::cli
