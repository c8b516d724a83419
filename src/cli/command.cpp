#include "cli/command.h"

#include <sstream>

#include "core/numbers.h"

namespace versolay::cli {

double option_number(const std::string& option, const std::string& text) {
  const auto value = parse_number(text);
  if (!value) throw Error(option + " " + text, "must be a number, such as 2.5");
  return *value;
}

std::pair<double, double> option_pair(const std::string& option, const std::string& text) {
  const auto value = parse_pair(text);
  if (!value)
    throw Error(option + " " + text, "must be two numbers with an x between, as in 63x88");
  return *value;
}

Turn option_turn(const std::string& text) {
  const auto turn = turn_from(text);
  if (!turn) throw Error("--turn " + text, "must be long-edge or short-edge");
  return *turn;
}

std::set<int> option_sheets(const std::string& option, const std::string& text) {
  std::set<int> sheets;
  std::istringstream numbers(text);
  for (std::string number; std::getline(numbers, number, ',');) {
    const auto sheet = parse_integer(number);
    if (!sheet || *sheet < 1) {
      throw Error(option + " " + text, "must be numbers of sheets, as in 2,4,6");
    }
    sheets.insert(*sheet);
  }
  return sheets;
}

}  // namespace versolay::cli
