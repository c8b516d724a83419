#include "cli/manual_page.h"

#include <fmt/format.h>

#include "cli/command.h"
#include "words/translation.h"

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

std::string section(const char* title) { return fmt::format(".SH {}\n", roff(title)); }

std::string as_it_is(const std::string& text) { return fmt::format(".nf\n{}\n.fi\n", roff(text)); }

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
  std::string text = section(tr("OPTIONS"));
  for (const OptionDescription& option : command.options) {
    text += fmt::format(
        ".TP\n{}\n{}{}{}\n", names_of(option), roff(option.text),
        option.required ? roff(tr(" (required)")) : "",
        option.default_value.empty() ? "" : roff(fmt::format(" [{}]", option.default_value)));
  }
  return text;
}

std::string commands_section(const CommandDescription& command) {
  std::string text = section(tr("COMMANDS"));
  for (const CommandDescription& c : command.commands) {
    text += fmt::format(".TP\n\\fB{}\\fR\n{}\n", roff(c.name), roff(c.text));
  }
  return text;
}

std::string item(const std::string& name, const char* meaning) {
  return fmt::format(".TP\n{}\n{}\n", name, roff(meaning));
}

std::string exit_section() {
  const auto code = [](ExitCode value) { return std::to_string(static_cast<int>(value)); };
  return section(tr("EXIT STATUS")) + item(code(kDone), tr("done")) +
         item(code(kNo), tr("the answer is no, or the data do not allow one")) +
         item(code(kBadUse), tr("usage error, or an input that cannot be read")) +
         item(code(kDoneWithWarnings), tr("done, with warnings"));
}

std::string environment_section() {
  const auto variable = [](const char* name, const char* meaning) {
    return item(fmt::format("\\fB{}\\fR", name), meaning);
  };
  return section(tr("ENVIRONMENT")) +
         variable(
             "LANGUAGE, LC_ALL, LC_MESSAGES, LANG",
             tr("language of the texts, if there is a catalogue for it; numbers do not change")) +
         variable("NO_COLOR", tr("no bold or coloured text, when set")) +
         variable("VERSOLAY_DATA",
                  tr("folder that holds the target designs (calib_targets) and the catalogues of "
                     "languages (locale), when they are not where they were installed")) +
         variable("VERSOLAY_PROGRESS",
                  tr("\"lines\": progress for programs, one line of JSON at a time on stderr")) +
         variable("SOURCE_DATE_EPOCH",
                  tr("replaces the current date in every file that is written"));
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
  std::string page =
      fmt::format(".TH \"{}\" 1 \"\" \"{}\" \"{}\"\n", name, version, tr("User commands"));
  page += section(tr("NAME")) + fmt::format("{} \\- {}\n", roff(name), roff(first_line));
  page += section(tr("SYNOPSIS")) + synopsis(program, command) + "\n";
  page += section(tr("DESCRIPTION")) + as_it_is(command.text);
  if (!command.commands.empty()) page += commands_section(command);
  page += options_section(command);
  if (!command.footer.empty()) page += section(tr("EXAMPLE")) + as_it_is(command.footer);
  page += exit_section();
  if (whole) page += environment_section();
  page += section(tr("SEE ALSO"));
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
