#include "cli/command.h"

#include <fmt/format.h>

#include "core/numbers.h"
#include "core/translation.h"
#include "layout/card_format.h"

namespace versolay::cli {

double option_number(const std::string& option, const std::string& text) {
  const auto value = parse_number(text);
  if (!value) throw Error(option + " " + text, tr("must be a number, such as 2.5"));
  return *value;
}

std::pair<double, double> option_pair(const std::string& option, const std::string& text) {
  const auto value = parse_pair(text);
  if (!value)
    throw Error(option + " " + text, tr("must be two numbers with an x between, as in 63x88"));
  return *value;
}

Error no_such_choice(const std::string& option, const std::string& text,
                     const std::vector<std::string>& words) {
  return Error(
      option + " " + text,
      tr("must be {} or {}", fmt::join(words.begin(), words.end() - 1, ", "), words.back()));
}

Turn option_turn(const std::string& text) {
  const auto turn = turn_from(text);
  if (!turn) throw Error("--turn " + text, tr("must be long-edge or short-edge"));
  return *turn;
}

std::set<int> option_sheets(const std::string& option, const std::string& text) {
  std::set<int> sheets;
  if (text.empty()) return sheets;
  for (const std::string& number : comma_list(text)) {
    const auto sheet = parse_integer(number);
    if (!sheet || *sheet < 1) {
      throw Error(option + " " + text, tr("must be numbers of sheets, as in 2,4,6"));
    }
    sheets.insert(*sheet);
  }
  return sheets;
}

CardSize option_card(const std::string& text) {
  const auto size = card_size_from(text);
  if (!size) {
    throw Error("--card " + text, tr("must be width x height in mm, such as 63x88, or a name: {}",
                                     card_format_list()));
  }
  return *size;
}

std::optional<GridShape> option_grid(const std::string& text) {
  if (text == "auto") return std::nullopt;
  const auto [columns, rows] = option_pair("--grid", text);
  const GridShape shape{static_cast<int>(columns), static_cast<int>(rows)};
  if (shape.columns != columns || shape.rows != rows || columns < 1 || rows < 1 || columns > 1000 ||
      rows > 1000) {
    throw Error("--grid " + text,
                tr("must be auto or two whole numbers, columns x rows, as in 3x3"));
  }
  return shape;
}

Margins option_margins(const std::string& text) {
  std::vector<double> mm;
  for (const std::string& part : comma_list(text)) mm.push_back(option_number("--margin", part));
  if (mm.size() == 1) return Margins(mm[0]);
  if (mm.size() == 4) return Margins(mm[0], mm[1], mm[2], mm[3]);
  throw Error("--margin " + text, tr("must be one number, or four: left,top,right,bottom"));
}

Reach option_oversize(const std::string& text) {
  if (text.find_first_of("xX") == std::string::npos) {
    const double mm = option_number("--oversize", text);
    return {mm, mm};
  }
  const auto [x, y] = option_pair("--oversize", text);
  return {x, y};
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
