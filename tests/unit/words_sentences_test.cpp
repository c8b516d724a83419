// The tables of sentences, gone over as a whole: every kind of finding that a room declares has a
// sentence, and every placeholder is a fact of its kind.
#include <gmock/gmock.h>

#include <algorithm>
#include <regex>
#include <set>

#include "core/doubt.h"
#include "core/finding_json.h"
#include "measure/findings.h"
#include "profile/findings.h"
#include "registration/findings.h"
#include "words/say.h"
#include "words/sentences.h"

namespace versolay::words {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

bool has_a_sentence(const FindingKind* kind) {
  return std::ranges::any_of(all_sentences(), [&](const Sentence* s) { return s->kind == kind; });
}

/// The last sentence of a kind must hold whatever its facts are.
bool always_says_something(const FindingKind* kind) {
  return std::ranges::any_of(
      all_sentences(), [&](const Sentence* s) { return s->kind == kind && s->when.fact.empty(); });
}

struct Placeholder {
  std::string name;
  std::string how;
};
std::vector<Placeholder> placeholders_of(const std::string& sentence) {
  static const std::regex pattern(R"(\{([^}:]*):?([^}]*)\})");
  std::vector<Placeholder> found;
  for (std::sregex_iterator i(sentence.begin(), sentence.end(), pattern), end; i != end; ++i) {
    found.push_back({(*i)[1], (*i)[2]});
  }
  return found;
}

TEST(FindingKinds, HaveASentenceEach) {
  EXPECT_GT(finding_kinds().size(), 400u);
  for (const FindingKind* kind : finding_kinds()) {
    EXPECT_TRUE(has_a_sentence(kind)) << kind->code;
    EXPECT_TRUE(always_says_something(kind)) << kind->code;
  }
}

TEST(FindingKinds, OfOneCodeDifferInTheirFacts) {
  std::set<std::pair<std::string_view, std::vector<std::string_view>>> seen;
  for (const FindingKind* kind : finding_kinds()) {
    EXPECT_TRUE(seen.emplace(kind->code, kind->facts).second) << kind->code;
    EXPECT_THAT(kind->facts, Not(Contains("code")));
    EXPECT_THAT(kind->facts, Not(Contains("message")));
  }
}

TEST(Sentences, NameFactsOfTheirKindOnly) {
  for (const Sentence* sentence : all_sentences()) {
    for (const char* text : {sentence->text, sentence->many}) {
      if (text == nullptr) continue;
      SCOPED_TRACE(text);
      for (const Placeholder& p : placeholders_of(text)) {
        EXPECT_THAT(sentence->kind->facts, Contains(p.name));
        EXPECT_THAT(p.how,
                    ::testing::MatchesRegex("(|~?[0-9]|word|landing|across|along|or|said|lines)"));
      }
    }
    if (!sentence->when.fact.empty()) {
      EXPECT_THAT(sentence->kind->facts, Contains(sentence->when.fact));
    }
  }
}

TEST(FindingKinds, ThatCastDoubtExist) {
  for (const std::string_view code : kDoubts) {
    EXPECT_TRUE(std::ranges::any_of(finding_kinds(), [&](const FindingKind* kind) {
      return kind->code == code;
    })) << code;
  }
}

// What cannot be filled in, such as a length that is a text, is said as its bare code.
TEST(Sentences, CanBeFilledInWithFactsOfTheirTypes) {
  for (const Sentence* sentence : all_sentences()) {
    const FindingKind& kind = *sentence->kind;
    Finding finding(std::string(kind.code), {});
    for (std::size_t i = 0; i < kind.facts.size(); ++i) {
      const bool chosen = kind.facts[i] == sentence->when.fact;
      finding.facts.push_back(
          {std::string(kind.facts[i]),
           chosen ? FactValue(std::string(sentence->when.value)) : kind.examples[i]});
    }
    EXPECT_NE(say(finding), kind.code) << sentence->text;
  }
}

// A sentence with more facts than another of its code must come first, or it is never said.
TEST(Sentences, AreAllReachable) {
  const auto& all = all_sentences();
  for (std::size_t later = 0; later < all.size(); ++later) {
    for (std::size_t earlier = 0; earlier < later; ++earlier) {
      if (all[earlier]->kind->code != all[later]->kind->code) continue;
      if (!all[earlier]->when.fact.empty()) continue;
      const bool hides = std::ranges::all_of(all[earlier]->kind->facts, [&](std::string_view fact) {
        return std::ranges::find(all[later]->kind->facts, fact) != all[later]->kind->facts.end();
      });
      EXPECT_FALSE(hides) << all[earlier]->text << "\nhides\n" << all[later]->text;
    }
  }
}

TEST(Say, PutsTheFactsInWithTheirUnits) {
  EXPECT_THAT(say(findings::hole_off("P3", Length{0.1234})),
              HasSubstr("Hole P3 disagrees with the others by 0.123 mm."));
  EXPECT_THAT(say(findings::scan_smeared("a.png", Share{0.0812})),
              HasSubstr("(8.1 % of their blackness)"));
  EXPECT_THAT(say(findings::sheared(Angle{2.345})), HasSubstr("sheared by 0.134 degrees"));
  EXPECT_THAT(say(findings::half_missing(Term{"lower"}, Term{"half"}, Term{"back"})),
              HasSubstr("The lower half of the back is not in the pictures."));
  EXPECT_THAT(say(findings::edges_cut_off({"top", "bottom"}, Term{"front"})),
              HasSubstr("The top and bottom edge of the paper"));
}

TEST(Say, ChoosesTheSentenceByFactsAndCounts) {
  EXPECT_THAT(say(findings::edge_places_left_out(1, Length{0.5})), HasSubstr("1 place along"));
  EXPECT_THAT(say(findings::edge_places_left_out(2, Length{0.5})), HasSubstr("2 places along"));
  EXPECT_THAT(say(findings::hole_unreadable("H2", "b.png", Term{"poor_contrast"})),
              HasSubstr("it is too pale. Put black card behind"));
  EXPECT_THAT(say(findings::edges_too_far_apart(Term{"left"}, Length{0.3}, Length{0.15})),
              HasSubstr("Or the scans are of two different sheets."));
}

// Files that were edited, and files of versions that this one does not know.
TEST(Say, IsNeverWithoutWords) {
  EXPECT_EQ(say(sentence_of_version_1("hole_off", "Hole P3 disagrees.")), "Hole P3 disagrees.");
  EXPECT_EQ(say(Finding("of_the_future", std::vector<NamedFact>{})), "of_the_future");
  EXPECT_EQ(say(Finding("hole_off", std::vector<NamedFact>{{"hole", "P3"}, {"off_mm", "wide"}})),
            "hole_off");
  EXPECT_EQ(say(Finding("half_missing",
                        std::vector<NamedFact>{{"where", "x"}, {"amount", "y"}, {"side", "z"}})),
            "half_missing");
}

TEST(AddMessages, ReachesEveryFindingOfADocument) {
  Json document = {
      {"sheets", Json::array({{{"warnings", json_of(Notices{findings::no_holes()})}}})},
      {"refused", json_of(findings::hole_contrast())},
      {"code", "not a finding"}};
  add_messages(document);
  EXPECT_THAT(document["sheets"][0]["warnings"][0]["message"].get<std::string>(),
              HasSubstr("No holes were found"));
  EXPECT_THAT(document["refused"]["message"].get<std::string>(), HasSubstr("too pale"));
  EXPECT_FALSE(document.contains("message"));
}

}  // namespace
}  // namespace versolay::words
