#include "cli/length_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string_view>
#include <vector>

#include "cli/bad_option.h"
#include "core/numbers.h"
#include "words/findings.h"

namespace versolay::cli {
namespace {

struct LengthUnit {
  std::string_view name;
  double mm;  // 0: pixels
};
constexpr std::array<LengthUnit, 6> kUnits = {{{"px", 0.0},
                                               {"mm", 1.0},
                                               {"cm", 10.0},
                                               {"inch", kMmPerInch},
                                               {"in", kMmPerInch},
                                               {"\"", kMmPerInch}}};

struct Written {
  double value = 0.0;
  std::optional<LengthUnit> unit;
  char separator = 0;  // after it; 0: the last one
};

/// Without blanks, in small letters, one sign for "times".
std::string plain(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i, 2) == "\u00d7") {
      result += 'x';
      ++i;
    } else if (text[i] == '*') {
      result += 'x';
    } else if (text[i] != ' ') {
      result += static_cast<char>(std::tolower(static_cast<unsigned char>(text[i])));
    }
  }
  return result;
}

std::optional<double> take_number(std::string_view& text, bool decimal_comma) {
  std::size_t end = 0;
  while (end < text.size() &&
         (std::isdigit(static_cast<unsigned char>(text[end])) != 0 || text[end] == '.' ||
          text[end] == '-' || text[end] == '+' || (decimal_comma && text[end] == ','))) {
    ++end;
  }
  std::string number(text.substr(0, end));
  std::replace(number.begin(), number.end(), ',', '.');
  text.remove_prefix(end);
  return parse_number(number);
}

std::optional<LengthUnit> take_unit(std::string_view& text) {
  for (const LengthUnit& unit : kUnits) {
    if (!text.starts_with(unit.name)) continue;
    text.remove_prefix(unit.name.size());
    return unit;
  }
  return std::nullopt;
}

/// Empty: not made of lengths.
std::vector<Written> lengths_in(std::string_view text, bool list) {
  std::vector<Written> lengths;
  while (true) {
    const auto value = take_number(text, !list);
    if (!value) return {};
    lengths.push_back({*value, take_unit(text), 0});
    if (text.empty()) return lengths;
    lengths.back().separator = text.front();
    if (text.front() != 'x' && !(list && text.front() == ',')) return {};
    text.remove_prefix(1);
  }
}

std::string joined(const std::vector<Written>& lengths, double factor, int decimals,
                   const char* times) {
  std::string text;
  for (const Written& length : lengths) {
    text += format_number(length.value * factor, decimals);
    if (length.separator == 'x') {
      text += times;
    } else if (length.separator != 0) {
      text += length.separator;
    }
  }
  return text;
}

}  // namespace

std::string in_mm(const std::string& option, const std::string& text, const LengthRule& rule,
                  double ppi) {
  std::vector<Written> lengths = lengths_in(plain(text), rule.list);
  if (lengths.empty()) return text;
  const double mm_per_px = kMmPerInch / ppi;
  const bool bare = std::none_of(lengths.begin(), lengths.end(),
                                 [](const Written& length) { return length.unit.has_value(); });
  if (bare && std::any_of(lengths.begin(), lengths.end(),
                          [&](const Written& length) { return length.value > rule.most_mm; })) {
    throw BadOption(option, text,
                    findings::looks_like_pixels(joined(lengths, 1.0, 3, " x "), ppi,
                                                joined(lengths, mm_per_px, 2, " x "),
                                                joined(lengths, 1.0, 3, "x")));
  }
  std::optional<LengthUnit> next;
  for (auto length = lengths.rbegin(); length != lengths.rend(); ++length) {
    if (length->unit) next = length->unit;
    if (!next) continue;
    length->value *= next->mm > 0 ? next->mm : mm_per_px;
  }
  return joined(lengths, 1.0, 6, "x");
}

}  // namespace versolay::cli
