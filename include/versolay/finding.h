// What the program found out, as values: a code and named facts. Sentences are made of them in
// src/words, and nowhere below it.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace versolay {

/// A length on paper.
struct Length {
  double mm = 0.0;
};
/// A small rotation, or a shear.
struct Angle {
  double mrad = 0.0;
};
/// A part of a whole: 0 to 1.
struct Share {
  double of_one = 0.0;
};
/// A word of a list that src/words knows, and translates: "front", "left".
struct Term {
  std::string_view name;
};

struct Finding;
using FactValue =
    std::variant<std::int64_t, double, std::string, std::vector<std::string>, std::vector<Finding>>;

/// The unit is part of the name, as in files: "off_mm", "shear_mrad", "smear_share".
struct NamedFact {
  std::string name;
  FactValue value;
};

/// A remark, a refusal or an error. `code` is stable and machine-readable.
struct Finding {
  std::string code;
  std::vector<NamedFact> facts;

  Finding() = default;
  Finding(std::string code_, std::vector<NamedFact> facts_);

  /// nullptr: no such fact.
  const FactValue* find(std::string_view name) const;
  /// nullptr: no such fact, or not a text.
  const std::string* find_text(std::string_view name) const;
};
bool operator==(const NamedFact& a, const NamedFact& b);
bool operator==(const Finding& a, const Finding& b);

/// What a kind of finding states: its code, and the names of its facts.
struct FindingKind {
  std::string_view code;
  std::vector<std::string_view> facts;
  std::vector<FactValue> examples;  // a value of each fact's type
};

/// All kinds that the rooms declare, for those who go over them (tests, the tables of src/words).
const std::vector<const FindingKind*>& finding_kinds();

namespace finding_details {
void enter(const FindingKind& kind);

inline FactValue value_of(Length length) { return length.mm; }
inline FactValue value_of(Angle angle) { return angle.mrad; }
inline FactValue value_of(Share share) { return share.of_one; }
inline FactValue value_of(Term term) { return std::string(term.name); }
inline FactValue value_of(double number) { return number; }
inline FactValue value_of(std::int64_t count) { return count; }
inline FactValue value_of(std::string text) { return text; }
inline FactValue value_of(std::vector<std::string> texts) { return texts; }
inline FactValue value_of(std::vector<Finding> findings) { return findings; }

template <class Fact>
Fact example() {
  return {};
}
template <>
inline Term example<Term>() {
  return {"front"};
}
}  // namespace finding_details

/// A kind of finding, with the types of its facts: declared once, in the findings.h of its room,
/// and called to state it:
///
///     inline const Kind<std::string, Length> hole_off{"hole_off", {"hole", "off_mm"}};
///     warnings.push_back(hole_off(hole.id, Length{off_mm}));
template <class... Facts>
class Kind {
 public:
  Kind(std::string_view code, const std::array<std::string_view, sizeof...(Facts)>& names)
      : kind_{code,
              {names.begin(), names.end()},
              {finding_details::value_of(finding_details::example<Facts>())...}} {
    finding_details::enter(kind_);
  }
  Kind(const Kind&) = delete;
  Kind& operator=(const Kind&) = delete;

  Finding operator()(Facts... facts) const {
    Finding finding(std::string(kind_.code), std::vector<NamedFact>{});
    std::size_t i = 0;
    (finding.facts.push_back(
         {std::string(kind_.facts[i++]), finding_details::value_of(std::move(facts))}),
     ...);
    return finding;
  }
  std::string_view code() const { return kind_.code; }
  const FindingKind& kind() const { return kind_; }

 private:
  FindingKind kind_;
};

/// Is it of this kind?
template <class... Facts>
bool operator==(const Finding& finding, const Kind<Facts...>& kind) {
  return finding.code == kind.code();
}

}  // namespace versolay
