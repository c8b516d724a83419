#include "versolay/finding.h"

#include <algorithm>

namespace versolay {
namespace {

std::vector<const FindingKind*>& entered() {
  static std::vector<const FindingKind*> kinds;
  return kinds;
}

}  // namespace

Finding::Finding(std::string code_, std::vector<NamedFact> facts_)
    : code(std::move(code_)), facts(std::move(facts_)) {}

bool operator==(const NamedFact& a, const NamedFact& b) {
  return a.name == b.name && a.value == b.value;
}
bool operator==(const Finding& a, const Finding& b) {
  return a.code == b.code && a.facts == b.facts;
}

const FactValue* Finding::find(std::string_view name) const {
  const auto fact =
      std::find_if(facts.begin(), facts.end(), [&](const NamedFact& f) { return f.name == name; });
  return fact == facts.end() ? nullptr : &fact->value;
}

const std::string* Finding::find_text(std::string_view name) const {
  const FactValue* value = find(name);
  return value == nullptr ? nullptr : std::get_if<std::string>(value);
}

const std::vector<const FindingKind*>& finding_kinds() { return entered(); }

void finding_details::enter(const FindingKind& kind) { entered().push_back(&kind); }

}  // namespace versolay
