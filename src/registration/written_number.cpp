#include "registration/written_number.h"

#include <array>
#include <utility>

#include "core/numbers.h"

namespace versolay {
namespace {

std::string replaced(std::string_view text, std::string_view what, std::string_view by) {
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    if (text.substr(at).starts_with(what)) {
      result += by;
      at += what.size();
    } else {
      result += text[at++];
    }
  }
  return result;
}

/// Takes `ending` off the end of `text`, and the blanks before it.
bool take_ending(std::string& text, std::string_view ending) {
  if (!text.ends_with(ending)) return false;
  text = trimmed(std::string_view(text).substr(0, text.size() - ending.size()));
  return true;
}

}  // namespace

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\n";
  const auto from = text.find_first_not_of(kBlanks);
  if (from == std::string_view::npos) return "";
  return std::string(text.substr(from, text.find_last_not_of(kBlanks) - from + 1));
}

std::string lower_case(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

std::optional<double> written_number(std::string_view cell) {
  // "anticlockwise" before "clockwise", which it ends in.
  static constexpr std::array<std::pair<std::string_view, double>, 6> kDirections = {
      {{"left", -1.0},
       {"right", 1.0},
       {"up", -1.0},
       {"down", 1.0},
       {"anticlockwise", -1.0},
       {"clockwise", 1.0}}};
  static constexpr std::array<std::string_view, 5> kUnits = {"mm", "degrees", "degree", "deg",
                                                             "\xC2\xB0"};
  std::string text = replaced(cell, "\xE2\x88\x92", "-");       // the minus sign of typesetters
  text = lower_case(trimmed(replaced(text, "\xC2\xA0", " ")));  // a blank that does not break
  double sign = 1.0;
  for (const auto& [word, direction] : kDirections) {
    if (!take_ending(text, word)) continue;
    if (text.starts_with('-') || text.starts_with('+')) return std::nullopt;  // said twice
    sign = direction;
    break;
  }
  for (const std::string_view unit : kUnits) {
    if (take_ending(text, unit)) break;
  }
  if (text.starts_with('+')) text.erase(0, 1);
  if (text.find('.') == std::string::npos) text = replaced(text, ",", ".");
  const auto number = parse_number(text);
  if (!number) return std::nullopt;
  return sign * *number;
}

}  // namespace versolay
