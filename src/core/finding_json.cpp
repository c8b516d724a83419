#include "core/finding_json.h"

#include <algorithm>
#include <optional>

namespace versolay {
namespace {

constexpr int kDecimals = 6;  // a nanometre, a microradian

Json json_of(const FactValue& value) {
  if (const auto* count = std::get_if<std::int64_t>(&value)) return *count;
  if (const auto* number = std::get_if<double>(&value)) return rounded(*number, kDecimals);
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  if (const auto* findings = std::get_if<std::vector<Finding>>(&value)) {
    return versolay::json_of(*findings);
  }
  return std::get<std::vector<std::string>>(value);
}

bool is_finding(const Json& value) {
  return value.is_object() && value.contains("code") && value["code"].is_string();
}

std::optional<FactValue> fact_from(const Json& value) {
  if (value.is_number_integer()) return value.get<std::int64_t>();
  if (value.is_number()) return value.get<double>();
  if (value.is_string()) return value.get<std::string>();
  if (!value.is_array()) return std::nullopt;
  if (!value.empty() && std::all_of(value.begin(), value.end(), is_finding)) {
    std::vector<Finding> findings;
    for (const Json& one : value) findings.push_back(finding_from(one));
    return findings;
  }
  const bool texts =
      std::all_of(value.begin(), value.end(), [](const Json& v) { return v.is_string(); });
  if (texts) return value.get<std::vector<std::string>>();
  return std::nullopt;
}

}  // namespace

Json json_of(const Finding& finding) {
  Json object = {{"code", finding.code}};
  for (const NamedFact& fact : finding.facts) object[fact.name] = json_of(fact.value);
  return object;
}

Json json_of(const Notices& notices) {
  Json list = Json::array();
  for (const Notice& n : notices) list.push_back(json_of(n));
  return list;
}

Finding finding_from(const Json& object) {
  Finding finding(object.at("code").get<std::string>(), std::vector<NamedFact>{});
  for (const auto& [name, value] : object.items()) {
    if (name == "code") continue;
    if (auto fact = fact_from(value)) finding.facts.push_back({name, std::move(*fact)});
  }
  return finding;
}

Finding finding_at(const JsonPlace& place, std::initializer_list<std::string_view> others) {
  place.at("code").text();
  Finding finding = finding_from(place.raw());
  std::erase_if(finding.facts, [&](const NamedFact& fact) {
    return std::find(others.begin(), others.end(), fact.name) != others.end();
  });
  return finding;
}

Finding sentence_of_version_1(std::string_view code, std::string sentence) {
  return {std::string(code), {{"message", std::move(sentence)}}};
}

Notices notices_at(const JsonPlace& place) {
  Notices notices;
  for (const JsonPlace& n : place.items()) notices.push_back(finding_at(n));
  return notices;
}

}  // namespace versolay
