#include "core/numbers.h"
#include "versolay/result.h"

namespace versolay {
namespace {

struct ValueText {
  std::string operator()(std::int64_t count) const { return std::to_string(count); }
  std::string operator()(double number) const { return format_number(number, 6); }
  std::string operator()(const std::string& text) const { return text; }
  std::string operator()(const std::vector<std::string>& texts) const {
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : ",") + text;
    return all;
  }
  std::string operator()(const std::vector<Finding>& findings) const {
    std::string all;
    for (const Finding& finding : findings) all += (all.empty() ? "" : ",") + finding.code;
    return all;
  }
};

std::string text_of(const std::string& where, const std::string& at,
                    const std::vector<Finding>& problems) {
  std::string text = where;
  if (!at.empty()) text += ", at " + at;
  for (const Finding& problem : problems) {
    text += (text.empty() ? "" : ": ") + problem.code;
    for (const NamedFact& fact : problem.facts) {
      text += " " + fact.name + "=" + std::visit(ValueText{}, fact.value);
    }
  }
  return text;
}

std::string text_of(const std::vector<Error>& parts) {
  std::string text;
  for (const Error& part : parts) text += (text.empty() ? "" : "\n") + std::string(part.what());
  return text;
}

}  // namespace

Error::Error(std::string where, std::string at, std::vector<Finding> problems)
    : std::runtime_error(text_of(where, at, problems)),
      where_(std::move(where)),
      at_(std::move(at)),
      problems_(std::move(problems)) {}

Error::Error(std::vector<Error> parts)
    : std::runtime_error(text_of(parts)), parts_(std::move(parts)) {}

}  // namespace versolay
