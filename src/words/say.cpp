#include "words/say.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "core/finding_json.h"
#include "core/numbers.h"
#include "words/direction_words.h"
#include "words/display_unit.h"
#include "words/rejected.h"
#include "words/sentences.h"
#include "words/translation.h"

namespace versolay::words {
namespace {

/// How a number is written.
struct Digits {
  int decimals = 2;
  bool trimmed = false;  // no zeros at the end
};

std::string digits(double number, Digits how) {
  if (!(std::abs(number) < 1e12)) return fmt::format("{:.3g}", number);
  return how.trimmed ? format_number(number, how.decimals) : format_fixed(number, how.decimals);
}

std::string number_text(const FactValue& value, Digits how) {
  if (const auto* count = std::get_if<std::int64_t>(&value)) return std::to_string(*count);
  if (const auto* number = std::get_if<double>(&value)) return digits(*number, how);
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  return list_of(std::get<std::vector<std::string>>(value));
}

double number_of(const FactValue& value) {
  if (const auto* count = std::get_if<std::int64_t>(&value)) return static_cast<double>(*count);
  const auto* number = std::get_if<double>(&value);
  if (number == nullptr) throw std::logic_error("a fact with a unit is not a number");
  return *number;
}

std::string length_text(double mm, Digits how, const DisplayUnit& unit) {
  how.decimals = unit.decimals(how.decimals);
  return digits(unit.per_mm * mm, how) + " " + unit.name;
}

std::string terms_text(const FactValue& value) {
  if (const auto* one = std::get_if<std::string>(&value)) return word_for(*one);
  std::vector<std::string> words;
  for (const std::string& term : std::get<std::vector<std::string>>(value)) {
    words.emplace_back(word_for(term));
  }
  return list_of(words);
}

/// "0.44 mm to the left": a word instead of a sign.
std::string across_text(double mm, const DisplayUnit& unit) {
  const std::string distance = distance_words(mm, unit);
  return mm < 0 ? tr("{} to the left", distance) : tr("{} to the right", distance);
}
std::string along_text(double mm, const DisplayUnit& unit) {
  const std::string distance = distance_words(mm, unit);
  return mm < 0 ? tr("{} up", distance) : tr("{} down", distance);
}

std::string choices_text(const FactValue& value) {
  const auto& choices = std::get<std::vector<std::string>>(value);
  if (choices.size() < 2) return list_of(choices);
  return tr("{} or {}", fmt::join(choices.begin(), choices.end() - 1, ", "), choices.back());
}

/// Of many, the first are said.
std::string problems_text(const std::vector<Finding>& problems) {
  constexpr std::size_t kMostSaid = 8;
  const std::size_t said = problems.size() <= kMostSaid + 1 ? problems.size() : kMostSaid;
  std::string text;
  for (std::size_t i = 0; i < said; ++i) text += (i == 0 ? "" : "\n  ") + say(problems[i]);
  if (said < problems.size()) text += tr("\n  and {} more", problems.size() - said);
  return text;
}

double fact_of(const Finding& finding, std::string_view name) {
  const FactValue* value = finding.find(name);
  if (value == nullptr) throw std::logic_error("no fact " + std::string(name));
  return number_of(*value);
}

/// Where the back landed, of the three facts that a registration has.
std::string landing_text(const Finding& finding, const DisplayUnit& unit) {
  Registration landed;
  landed.dx_mm = fact_of(finding, "dx_mm");
  landed.dy_mm = fact_of(finding, "dy_mm");
  landed.rotation_mrad = fact_of(finding, "rotation_mrad");
  return landing_words(landed, unit);
}

/// "off_mm:3" of a sentence, with the facts of this finding.
std::string placeholder_text(std::string_view placeholder, const Finding& finding,
                             const DisplayUnit& unit) {
  const std::size_t colon = placeholder.find(':');
  const std::string_view name = placeholder.substr(0, colon);
  const std::string_view how =
      colon == std::string_view::npos ? std::string_view() : placeholder.substr(colon + 1);
  const FactValue* value = finding.find(name);
  if (value == nullptr) throw std::logic_error("no fact " + std::string(name));
  if (how == "word") return terms_text(*value);
  if (how == "landing") return landing_text(finding, unit);
  if (how == "across") return across_text(number_of(*value), unit);
  if (how == "along") return along_text(number_of(*value), unit);
  if (how == "or") return choices_text(*value);
  if (how == "said") return problems_text(std::get<std::vector<Finding>>(*value));
  if (how == "lines") {
    return rejected_text(rejected_from(std::get<std::vector<Finding>>(*value)), unit);
  }
  Digits form;
  form.trimmed = how.starts_with('~');
  if (!how.empty()) form.decimals = parse_integer(how.substr(form.trimmed ? 1 : 0)).value();
  if (name.ends_with("_mm")) return length_text(number_of(*value), form, unit);
  if (name.ends_with("_mrad")) return angle_words(number_of(*value));
  if (name == "share" || name.ends_with("_share")) {
    return format_number(100 * number_of(*value), how.empty() ? 0 : form.decimals) + " %";
  }
  return number_text(*value, form);
}

std::string filled_in(std::string_view sentence, const Finding& finding, const DisplayUnit& unit) {
  std::string text;
  while (true) {
    const std::size_t open = sentence.find('{');
    text += sentence.substr(0, open);
    if (open == std::string_view::npos) return text;
    const std::size_t close = sentence.find('}', open);
    if (close == std::string_view::npos) throw std::logic_error("an open placeholder");
    text += placeholder_text(sentence.substr(open + 1, close - open - 1), finding, unit);
    sentence.remove_prefix(close + 1);
  }
}

bool holds(const Sentence& sentence, const Finding& finding) {
  if (sentence.kind->code != finding.code) return false;
  const auto& names = sentence.kind->facts;
  if (!std::all_of(names.begin(), names.end(),
                   [&](std::string_view name) { return finding.find(name) != nullptr; })) {
    return false;
  }
  if (sentence.when.fact.empty()) return true;
  const std::string* value = finding.find_text(sentence.when.fact);
  return value != nullptr && *value == sentence.when.value;
}

const Sentence* sentence_for(const Finding& finding) {
  for (const Sentence* sentence : all_sentences()) {
    if (holds(*sentence, finding)) return sentence;
  }
  return nullptr;
}

/// The sentence in the language of the person.
std::string template_of(const Sentence& sentence, const Finding& finding) {
  if (sentence.many == nullptr) return tr(sentence.text);
  return tr(Plural{sentence.text, sentence.many},
            static_cast<long>(number_of(*finding.find(sentence.counted))));
}

/// A translation or a file may be at fault: then the English, then the code, are better than none.
std::string said(const Sentence& sentence, const Finding& finding, const DisplayUnit& unit) {
  try {
    return filled_in(template_of(sentence, finding), finding, unit);
  } catch (const std::exception&) {
    return filled_in(sentence.text, finding, unit);
  }
}

std::string parts_text(const std::vector<Error>& parts) {
  constexpr std::size_t kMostSaid = 20;
  std::string text = tr("{} of the files cannot be read:", parts.size());
  for (std::size_t i = 0; i < std::min(parts.size(), kMostSaid); ++i) {
    text += "\n  " + say(parts[i]);
  }
  if (parts.size() > kMostSaid) text += tr("\n  and {} more", parts.size() - kMostSaid);
  return text;
}

}  // namespace

std::string list_of(const std::vector<std::string>& items, std::size_t shown) {
  const std::size_t named = items.size() <= shown + 1 ? items.size() : shown;
  std::string text;
  for (std::size_t i = 0; i < named; ++i) {
    const bool last = i + 1 == items.size();
    text = i == 0 ? items[i] : last ? tr("{} and {}", text, items[i]) : text + ", " + items[i];
  }
  if (named < items.size()) text = tr("{} and {} more", text, items.size() - named);
  return text;
}

std::string say(const Finding& finding, const DisplayUnit& unit) {
  if (const std::string* message = finding.find_text("message")) return *message;
  const Sentence* sentence = sentence_for(finding);
  if (sentence == nullptr) return finding.code;
  try {
    return said(*sentence, finding, unit);
  } catch (const std::exception&) {  // facts of another type, in a file that was edited
    return finding.code;
  }
}

std::string say(const Error& error) {
  if (!error.parts().empty()) return parts_text(error.parts());
  std::string where = error.where();
  if (!error.at().empty()) where = tr("{} (at {})", where, error.at());
  return (where.empty() ? "" : where + ": ") + problems_text(error.problems());
}

Finding said_as(Finding finding, std::string sentence) {
  std::erase_if(finding.facts, [](const NamedFact& fact) { return fact.name == "message"; });
  finding.facts.push_back({"message", std::move(sentence)});
  return finding;
}

std::string say_all(const std::vector<Finding>& findings, const DisplayUnit& unit) {
  std::string text;
  for (const Finding& finding : findings) text += (text.empty() ? "" : " ") + say(finding, unit);
  return text;
}

void add_messages(Json& document) {
  if (document.is_object()) {
    const auto code = document.find("code");
    if (code != document.end() && code->is_string() && !document.contains("message")) {
      const std::string message = say(finding_from(document));
      if (message != code->get<std::string>()) document["message"] = message;
    }
  }
  if (document.is_structured()) {
    for (auto& part : document) add_messages(part);
  }
}

}  // namespace versolay::words
