// Text for people, in their language. The English text in the source is the key of its translation
// in the catalogue (src/messages), as in GNU gettext.
#pragma once

#include <fmt/format.h>

#include <string>
#include <utility>

namespace versolay {

/// From now on texts come in the language that the environment asks for (LANGUAGE, LC_ALL,
/// LC_MESSAGES, LANG), when there is a catalogue of it. Numbers stay as they are: no other category
/// of the locale is touched. Without this call everything is English. Call it before any thread.
void translate_texts();

/// The text as it is to be shown; good as long as the program runs.
const char* tr(const char* english);

/// Marks a text of a constant for the catalogue; tr() is called where it is shown.
constexpr const char* tr_noop(const char* english) { return english; }

/// A text of a constant that depends on a count, marked for the catalogue.
struct Plural {
  const char* one;
  const char* many;
};
constexpr Plural trn_noop(const char* one, const char* many) { return {one, many}; }
/// As it is to be shown for this count.
const char* tr(const Plural& english, long count);

/// The translation of `english`, with the values put in. A translation that fmt cannot format
/// gives way to the English.
std::string translated(fmt::string_view english, fmt::format_args values);
std::string translated(fmt::string_view one, fmt::string_view many, long count,
                       fmt::format_args values);

/// A text with values in it: tr("{} of {} cards", good, all). The English is checked when it is
/// compiled.
template <class First, class... More>
std::string tr(fmt::format_string<First, More...> english, First&& first, More&&... more) {
  return translated(english, fmt::make_format_args(first, more...));
}

/// A text that depends on how many there are: trn("{} sheet", "{} sheets", count). The count is
/// the first value.
template <class... More>
std::string trn(fmt::format_string<long&, More...> one, fmt::format_string<long&, More...> many,
                long count, More&&... more) {
  return translated(one, many, count, fmt::make_format_args(count, more...));
}

}  // namespace versolay
