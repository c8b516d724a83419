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
  EXPECT_EQ(did_you_mean("--papr", known), ": did you mean --paper?");
  EXPECT_EQ(did_you_mean("--profil", known), ": did you mean --profile?");
}

TEST(Suggestion, SaysNothingWhereNothingIsNear) {
  EXPECT_EQ(did_you_mean("--colour", {"--paper", "--out"}), "");
  EXPECT_EQ(did_you_mean("--out", {"--out"}), "") << "a known word is no mistake";
  EXPECT_EQ(did_you_mean("--ab", {"--xy"}), "");
}

}  // namespace
}  // namespace versolay::cli
