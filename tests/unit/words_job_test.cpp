// Words of a job of cards.
#include <gmock/gmock.h>

#include "words/job_words.h"

namespace versolay::words {
namespace {

TEST(ThicknessWords, AreARangeWhereTheWeightOfThePaperLeavesOne) {
  EXPECT_EQ(thickness_words({{0.38, 0.38}, {20.52, 20.52}, 54}),
            "A finished card is about 0.38 mm thick, 54 of them about 20.5 mm.");
  EXPECT_EQ(thickness_words({{0.166, 0.28}, {1.66, 2.8}, 10}),
            "A finished card is 0.17 to 0.28 mm thick, 10 of them 1.7 to 2.8 mm.");
}

TEST(SlugWords, NameJobSheetSideTurnAndProfile) {
  const SlugWords slug = slug_words("herons", Turn::short_edge, "");
  EXPECT_EQ(
      slug(2, 6, Side::verso),
      "herons  \u00b7  sheet 2 of 6, back  \u00b7  turn on the short edge  \u00b7  no profile");
}

}  // namespace
}  // namespace versolay::words
