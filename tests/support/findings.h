// What a finding states, for tests: codes and facts, not sentences.
#pragma once

#include <ostream>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

#include "versolay/finding.h"

namespace versolay {

inline std::ostream& operator<<(std::ostream& out, const FactValue& value) {
  if (const auto* texts = std::get_if<std::vector<std::string>>(&value)) {
    for (const std::string& text : *texts) out << text << " ";
    return out;
  }
  std::visit(
      [&](const auto& v) {
        if constexpr (!std::is_same_v<std::decay_t<decltype(v)>, std::vector<std::string>>) {
          out << v;
        }
      },
      value);
  return out;
}

inline std::ostream& operator<<(std::ostream& out, const Finding& finding) {
  out << finding.code;
  for (const NamedFact& fact : finding.facts) out << ", " << fact.name << " " << fact.value;
  return out;
}

namespace testing_support {

/// A fact of a finding: fact<double>(finding, "off_mm"). Throws std::runtime_error without it.
template <class T = std::string>
T fact(const Finding& finding, std::string_view name) {
  const FactValue* value = finding.find(name);
  if (value == nullptr) {
    throw std::runtime_error(finding.code + " has no fact " + std::string(name));
  }
  return std::get<T>(*value);
}

/// The sentence in a finding of a file of schema version 1.
inline std::string message_in(const Finding& finding) { return fact<>(finding, "message"); }

}  // namespace testing_support
}  // namespace versolay
