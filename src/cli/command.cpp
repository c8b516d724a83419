#include "cli/command.h"

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

}  // namespace versolay::cli
