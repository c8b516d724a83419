// An option and the field that it fills, said once: name, name of the value, text to and from,
// help. The field's own initialiser is the default; what a folder remembers, help, manual and
// completion follow from what is said here.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/length_text.h"

namespace versolay::cli {

/// What a command does with the file that is named. What it writes must be none of those that it
/// reads: cli/command_line_check.h.
enum class FileUse { none, read, written };
void mark(CLI::Option& option, FileUse use);
FileUse use_of(CLI::Option& option);

/// How values of a type are typed.
template <class T>
struct Typed {
  std::string name;  // of the value, in help: "MM", "WxH"; a closed list of words as "card|sheet"
  /// Throws Error naming the option.
  std::function<T(const std::string& option, const std::string& text)> value;
  /// Of the default, for help; empty: there is nothing to show.
  std::function<std::string(const T&)> text;
  /// Of values that are lengths: `value` gets them in mm, whatever the unit that they were typed
  /// in.
  std::optional<LengthRule> lengths = std::nullopt;
  FileUse use = FileUse::none;
};

/// Pixels per inch of the artwork: as given on the command line, or the usual 300.
double ppi_of(const CLI::App& command);

/// The value that was typed for an option of this command.
template <class T>
T typed_value(const CLI::App& parser, const std::string& option, const Typed<T>& typed,
              const std::string& text) {
  const std::string name = option.substr(0, option.find(','));  // without its short form
  if (!typed.lengths) return typed.value(name, text);
  return typed.value(name, in_mm(name, text, *typed.lengths, ppi_of(parser)));
}

/// A value that may be missing: an empty text, or none of the option at all.
template <class T>
Typed<std::optional<T>> optional(const Typed<T>& typed) {
  return {typed.name,
          [value = typed.value](const std::string& option, const std::string& text) {
            return text.empty() ? std::nullopt : std::optional<T>(value(option, text));
          },
          [text = typed.text](const std::optional<T>& value) {
            return value && text ? text(*value) : std::string();
          },
          typed.lengths, typed.use};
}

/// `field` must outlive the parser.
template <class T>
CLI::Option* add_typed(CLI::App& parser, const std::string& option, T& field, const Typed<T>& typed,
                       const std::string& help) {
  CLI::Option* added = parser.add_option_function<std::string>(
      option,
      [&field, &parser, option, typed](const std::string& text) {
        field = typed_value(parser, option, typed, text);
      },
      help);
  added->type_name(typed.name);
  mark(*added, typed.use);
  const std::string text = typed.text ? typed.text(field) : std::string();
  if (!text.empty()) added->default_str(text);
  return added;
}

/// One that may be given several times, or an argument of several words.
template <class T>
CLI::Option* add_several(CLI::App& parser, const std::string& option, std::vector<T>& field,
                         const Typed<T>& typed, const std::string& help) {
  CLI::Option* added = parser.add_option_function<std::vector<std::string>>(
      option,
      [&field, &parser, option, typed](const std::vector<std::string>& texts) {
        field.clear();
        for (const std::string& text : texts) {
          field.push_back(typed_value(parser, option, typed, text));
        }
      },
      help);
  added->type_name(typed.name);
  mark(*added, typed.use);
  return added;
}

/// A flag that switches the field off.
inline CLI::Option* add_off_switch(CLI::App& parser, const std::string& flag, bool& field,
                                   const std::string& help) {
  return parser.add_flag_callback(
      flag, [&field] { field = false; }, help);
}

}  // namespace versolay::cli
