#include "core/numbers.h"

#include <fmt/format.h>
#include <locale.h>

#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdlib>

namespace versolay {

// Not std::from_chars and std::to_chars: the library of the browser's build has them for integers
// only.
std::optional<double> parse_number(std::string_view text) {
  // strtod takes white space, a plus, hexadecimals and names as well.
  if (text.find_first_not_of("0123456789.eE+-") != std::string_view::npos) return std::nullopt;
  if (text.empty() || text.front() == '+') return std::nullopt;
  static const locale_t kPlain = newlocale(LC_ALL_MASK, "C", nullptr);
  const std::string ended(text);
  char* end = nullptr;
  errno = 0;
  const double value = strtod_l(ended.c_str(), &end, kPlain);
  if (end != ended.c_str() + ended.size() || !std::isfinite(value)) return std::nullopt;
  if (value == 0.0 && errno == ERANGE) return std::nullopt;  // 1e-400
  return value;
}

std::optional<int> parse_integer(std::string_view text) {
  int value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

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
  std::string text = fmt::format("{:.{}f}", value, decimals);
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
