#include "core/numbers.h"

#include <array>
#include <charconv>
#include <cmath>

namespace versolay {
namespace {

template <class T>
std::optional<T> parse_whole(std::string_view text) {
  T value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace

std::optional<double> parse_number(std::string_view text) {
  const auto value = parse_whole<double>(text);
  if (!value || !std::isfinite(*value)) return std::nullopt;
  return value;
}

std::optional<int> parse_integer(std::string_view text) { return parse_whole<int>(text); }

std::optional<std::pair<double, double>> parse_pair(std::string_view text) {
  const std::size_t cross = text.find_first_of("xX");
  if (cross == std::string_view::npos) return std::nullopt;
  const auto first = parse_number(text.substr(0, cross));
  const auto second = parse_number(text.substr(cross + 1));
  if (!first || !second) return std::nullopt;
  return std::pair{*first, *second};
}

std::string format_fixed(double value, int decimals) {
  if (!std::isfinite(value)) return std::isnan(value) ? "nan" : (value > 0 ? "inf" : "-inf");
  std::array<char, 400> buffer;
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                          std::chars_format::fixed, decimals);
  std::string text(buffer.data(), end);
  if (text.front() == '-' && text.find_first_of("123456789") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::string format_number(double value, int decimals) {
  std::string text = format_fixed(value, decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace versolay
