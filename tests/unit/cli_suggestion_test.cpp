#include <gtest/gtest.h>

#include "cli/suggestion.h"

namespace versolay::cli {
namespace {

// SOURCE: "kitten" -> "sitting", 3 edits, the usual textbook example (from memory); a swap of
// neighbours is one edit in Damerau, Comm. ACM 7(3), 1964.
TEST(Suggestion, CountsEdits) {
  EXPECT_EQ(edits_between("kitten", "sitting"), 3);
  EXPECT_EQ(edits_between("--tunr", "--turn"), 1);
  EXPECT_EQ(edits_between("", "abc"), 3);
  EXPECT_EQ(edits_between("same", "same"), 0);
}

TEST(Suggestion, NamesTheNearestWord) {
  const std::vector<std::string> known = {"--paper", "--profile", "--out"};
  EXPECT_EQ(nearest_word("--papr", known), "--paper");
  EXPECT_EQ(nearest_word("--profil", known), "--profile");
}

TEST(Suggestion, SaysNothingWhereNothingIsNear) {
  EXPECT_EQ(nearest_word("--colour", {"--paper", "--out"}), std::nullopt);
  EXPECT_EQ(nearest_word("--out", {"--out"}), std::nullopt) << "a known word is no mistake";
  EXPECT_EQ(nearest_word("--ab", {"--xy"}), std::nullopt);
}

}  // namespace
}  // namespace versolay::cli
