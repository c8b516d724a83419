#include "cli/option_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "core/numbers.h"
#include "layout/card_format.h"
#include "words/findings.h"

namespace versolay::cli {
namespace {

// Larger numbers without a unit can only be pixels.
constexpr double kLargestBareMm = 1000.0;
constexpr double kLargestCardMm = 300.0;
constexpr double kMostBeyondMm = 60.0;
constexpr double kLargestReachMm = 10.0;

std::string number_words(double value) { return format_number(value, 6); }

double number_of(const std::string& option, const std::string& text) {
  const auto value = parse_number(text);
  if (!value) throw BadOption(option, text, findings::number_expected());
  return *value;
}

double share_of(const std::string& option, const std::string& text) {
  const bool percent = text.ends_with("%");
  const auto value = parse_number(text.substr(0, text.size() - (percent ? 1 : 0)));
  if (!value || (!percent && *value > 1)) {
    throw BadOption(option, text, findings::share_expected());
  }
  return percent ? *value / 100 : *value;
}

std::pair<double, double> pair_of(const std::string& option, const std::string& text) {
  const auto value = parse_pair(text);
  if (!value) {
    throw BadOption(option, text, findings::pair_expected());
  }
  return *value;
}

/// Positive whole numbers with commas between.
std::vector<int> positive_list(const std::string& option, const std::string& text,
                               const Kind<>& expected) {
  std::vector<int> numbers;
  if (text.empty()) return numbers;
  for (const std::string& part : comma_list(text)) {
    const auto number = parse_integer(part);
    if (!number || *number < 1) throw BadOption(option, text, expected());
    numbers.push_back(*number);
  }
  return numbers;
}

/// "a4", "210x297"; "a3+", which printers call paper of 13 x 19 inches (329 x 483 mm, common
/// practice).
Paper paper_of(const std::string& text) {
  if (text == "a3+" || text == "A3+") return parse_paper("329x483mm");
  const bool bare = parse_pair(text).has_value();
  return parse_paper(bare ? text + "mm" : text);
}

CardSize card_of(const std::string& option, const std::string& text) {
  const auto size = card_size_from(text);
  if (!size || !(size->width_mm > 0 && size->height_mm > 0)) {
    throw BadOption(option, text, findings::card_expected(card_format_list()));
  }
  return *size;
}

std::optional<GridShape> grid_of(const std::string& option, const std::string& text) {
  if (text == "auto") return std::nullopt;
  std::string crossed = text;
  std::replace(crossed.begin(), crossed.end(), '*', 'x');
  const auto [columns, rows] = pair_of(option, crossed);
  const GridShape shape{static_cast<int>(columns), static_cast<int>(rows)};
  if (shape.columns != columns || shape.rows != rows || columns < 1 || rows < 1 || columns > 1000 ||
      rows > 1000) {
    throw BadOption(option, text, findings::grid_expected());
  }
  return shape;
}

Margins margins_of(const std::string& option, const std::string& text) {
  std::vector<double> mm;
  for (const std::string& part : comma_list(text)) mm.push_back(number_of(option, part));
  if (mm.size() == 1) return Margins(mm[0]);
  if (mm.size() == 4) return Margins(mm[0], mm[1], mm[2], mm[3]);
  throw BadOption(option, text, findings::margins_expected());
}

std::string margins_words(const Margins& m) {
  if (m.left_mm == m.top_mm && m.left_mm == m.right_mm && m.left_mm == m.bottom_mm) {
    return number_words(m.left_mm);
  }
  return fmt::format("{},{},{},{}", m.left_mm, m.top_mm, m.right_mm, m.bottom_mm);
}

Reach reach_of(const std::string& option, const std::string& text) {
  if (text.find_first_of("xX") == std::string::npos) {
    const double mm = number_of(option, text);
    return {mm, mm};
  }
  const auto [x, y] = pair_of(option, text);
  return {x, y};
}

double ratio_of(const std::string& option, const std::string& text) {
  const std::size_t slash = text.find('/');
  const auto measured = parse_number(text.substr(0, slash));
  const auto printed =
      slash == std::string::npos ? std::nullopt : parse_number(text.substr(slash + 1));
  if (!measured || !printed || !(*measured > 0) || !(*printed > 0)) {
    throw BadOption(option, text, findings::ratio_expected());
  }
  return *measured / *printed;
}

LaminatedScale laminated_of(const std::string& option, const std::string& text) {
  const std::size_t comma = text.find(',');
  const double x = ratio_of(option, text.substr(0, comma));
  return {x, comma == std::string::npos ? x : ratio_of(option, text.substr(comma + 1))};
}

}  // namespace

Typed<std::string> words(const std::string& name) {
  return {name, [](const std::string&, const std::string& text) { return text; },
          [](const std::string& text) { return text; }};
}

Typed<std::filesystem::path> file(const std::string& name) {
  return {name,
          [](const std::string& option, const std::string& text) {
            if (text.empty()) throw BadOption(option, findings::file_name_expected());
            return std::filesystem::path(text);
          },
          [](const std::filesystem::path& path) { return path.string(); }, std::nullopt,
          FileUse::read};
}

Typed<std::filesystem::path> output_file(const std::string& name) {
  Typed<std::filesystem::path> typed = file(name);
  typed.use = FileUse::written;
  return typed;
}

Typed<double> number(const std::string& name) { return {name, number_of, number_words}; }

Typed<double> length(double most_mm) {
  return {"LENGTH", number_of, number_words, LengthRule{most_mm, false}};
}

Typed<double> share() { return {"SHARE", share_of, number_words}; }

Typed<int> whole_number(const std::string& name) {
  return {name,
          [](const std::string& option, const std::string& text) {
            const auto value = parse_integer(text);
            if (!value) throw BadOption(option, text, findings::whole_number_expected());
            return *value;
          },
          [](const int& value) { return std::to_string(value); }};
}

Typed<std::uint64_t> seed() {
  return {"N",
          [](const std::string& option, const std::string& text) {
            std::uint64_t value = 0;
            const auto [end, fault] =
                std::from_chars(text.data(), text.data() + text.size(), value);
            if (fault != std::errc() || end != text.data() + text.size()) {
              throw BadOption(option, text, findings::count_expected());
            }
            return value;
          },
          [](const std::uint64_t& value) { return std::to_string(value); }};
}

Typed<Paper> paper_size() {
  return {"SIZE",
          [](const std::string& option, const std::string& text) {
            try {
              return paper_of(text);
            } catch (const Error& e) {
              throw BadOption(option, text, e.problems().front());
            }
          },
          [](const Paper& paper) { return paper.name; }, LengthRule{kLargestBareMm, false}};
}

Typed<Turn> turn() {
  return choice<Turn>({{"long-edge", Turn::long_edge}, {"short-edge", Turn::short_edge}});
}

Typed<CardSize> card_size() {
  return {"WxH", card_of,
          [](const CardSize& card) -> std::string {
            if (card == CardSize{}) return {};
            return number_words(card.width_mm) + "x" + number_words(card.height_mm);
          },
          LengthRule{kLargestCardMm, false}};
}

Typed<std::optional<GridShape>> grid_shape() {
  return {"CxR", grid_of, [](const std::optional<GridShape>& shape) -> std::string {
            return shape ? fmt::format("{}x{}", shape->columns, shape->rows) : "auto";
          }};
}

Typed<Margins> margins() {
  return {"LENGTH", margins_of, margins_words, LengthRule{kMostBeyondMm, true}};
}

Typed<Reach> reach() { return {"LENGTH", reach_of, {}, LengthRule{kLargestReachMm, false}}; }

Typed<std::set<int>> sheet_numbers() {
  return {"SHEETS",
          [](const std::string& option, const std::string& text) {
            const auto list = positive_list(option, text, findings::sheets_expected);
            return std::set<int>(list.begin(), list.end());
          },
          {}};
}

Typed<std::vector<int>> page_numbers() {
  return {"PAGES",
          [](const std::string& option, const std::string& text) {
            return positive_list(option, text, findings::pages_expected);
          },
          {}};
}

Typed<Thickness> thickness() {
  return {"THICKNESS",
          [](const std::string& option, const std::string& text) {
            try {
              return parse_thickness(option, text);
            } catch (const Error& e) {
              throw BadOption(option, text, e.problems().front());
            }
          },
          {}};
}

Typed<LaminatedScale> laminated_scale() { return {"MM/MM", laminated_of, {}}; }

BadOption no_such_choice(const std::string& option, const std::string& text,
                         const std::vector<std::string>& words) {
  return {option, text, findings::choice_expected(words)};
}

std::vector<std::string> comma_list(const std::string& text) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    parts.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return parts;
}

}  // namespace versolay::cli
