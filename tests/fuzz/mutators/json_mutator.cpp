// JSON: values replaced by those at the edges, keys that go, come twice or change places.
#include <nlohmann/json.hpp>

#include "mutators/mutation.h"

namespace versolay::fuzz {
namespace {

using Json = nlohmann::ordered_json;

/// Stands for text that no JSON library would write; replaced after writing.
constexpr const char* kPlaceholder = "\"@raw@\"";

/// Numbers as text: some have no double.
const std::vector<std::string> kNumbers = {"0",
                                           "-0",
                                           "1",
                                           "-1",
                                           "0.5",
                                           "1e-300",
                                           "5e-324",
                                           "1e-9",
                                           "1e9",
                                           "1e15",
                                           "1e100",
                                           "1e154",
                                           "1e155",
                                           "1e308",
                                           "-1e308",
                                           "1e309",
                                           "-1e400",
                                           "2147483647",
                                           "2147483648",
                                           "-2147483649",
                                           "4294967296",
                                           "9007199254740993",
                                           "1e-5",
                                           "-1e-5",
                                           "18446744073709551616",
                                           "0.1e1",
                                           "1.7976931348623157e308",
                                           "123456789012345678901234567890",
                                           "NaN",
                                           "1E5000"};

const std::vector<std::string> kOther = {"null",
                                         "true",
                                         "false",
                                         "\"\"",
                                         "[]",
                                         "{}",
                                         "[[]]",
                                         "\"\\u0000\"",
                                         "\"\\u001b[31m\"",
                                         "\"\\u202e\"",
                                         "\"\\ud800\"",
                                         "\"=1+1\"",
                                         "\"/dev/zero\"",
                                         "\"../../x\"",
                                         "\"1e308\"",
                                         "[0,0]",
                                         "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[["
                                         "[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]"
                                         "]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]"};

void collect(Json& value, std::vector<Json*>& all) {
  all.push_back(&value);
  if (value.is_structured()) {
    for (Json& child : value) collect(child, all);
  }
}

/// One change; what replaces the placeholder.
std::string change_one(Json& document, Dice& dice) {
  std::vector<Json*> all;
  collect(document, all);
  std::vector<Json*> numbers;
  for (Json* value : all) {
    if (value->is_number()) numbers.push_back(value);
  }
  Json& value = *dice.pick(all);
  switch (dice.roll(9)) {
    case 0:
    case 1:
    case 2:
      if (numbers.empty()) break;
      *dice.pick(numbers) = "@raw@";
      return dice.pick(kNumbers);
    case 3:
      value = "@raw@";
      return dice.one_in(3) ? dice.pick(kNumbers) : dice.pick(kOther);
    case 4:
      if (value.is_structured() && !value.empty()) {
        value.erase(std::next(value.begin(), static_cast<std::ptrdiff_t>(dice.roll(value.size()))));
      }
      break;
    case 5:  // more of a list
      if (value.is_array() && !value.empty()) {
        const Json one = value[dice.roll(value.size())];
        for (std::size_t n = 1 + dice.roll(dice.one_in(8) ? 300 : 4); n > 0; --n) {
          value.push_back(one);
        }
      }
      break;
    case 6: {
      const Json other = *dice.pick(all);
      value = other;
      break;
    }
    case 7:
      if (value.is_string()) {
        value = dice.one_in(4) ? std::string(1 + dice.roll(5000), 'x')
                               : changed_bytes(value.get<std::string>(), dice);
      } else if (value.is_number()) {  // near what it was
        value = value.get<double>() * (dice.one_in(2) ? -1.0 : 1.0 + 1e-3 * double(dice.roll(9)));
      }
      break;
    default:  // a key that nobody knows
      if (value.is_object()) value["@raw@ key"] = 1;
  }
  return "null";
}

}  // namespace

std::string mutated(const std::string& input, Dice& dice) {
  Json document = Json::parse(input, nullptr, false);
  if (document.is_discarded() || dice.one_in(8)) return changed_bytes(input, dice);
  std::string raw;
  for (std::size_t n = 1 + dice.roll(3); n > 0; --n) raw = change_one(document, dice);
  std::string text = document.dump(-1, ' ', false, Json::error_handler_t::replace);
  const std::string placeholder = kPlaceholder;
  for (std::size_t at = text.find(placeholder); at != std::string::npos;
       at = text.find(placeholder, at)) {
    text.replace(at, placeholder.size(), raw);
  }
  return text;
}

}  // namespace versolay::fuzz
