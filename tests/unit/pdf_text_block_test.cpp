#include <gmock/gmock.h>

#include "pdf/fonts.h"
#include "pdf/text_block.h"

namespace versolay {
namespace {

using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::ResultOf;

constexpr double kSizeMm = 3.6;

double width_mm(const std::string& line) { return text_width_mm(line, kSizeMm, false); }

TEST(Wrapped, BreaksBetweenWords) {
  EXPECT_THAT(wrapped("the wren and the tit", width_mm("the wren and"), kSizeMm),
              ElementsAre("the wren and", "the tit"));
  EXPECT_TRUE(wrapped("", 50, kSizeMm).empty());
}

TEST(Wrapped, PartsAWordThatIsWiderThanTheColumn) {
  std::string path = "/home/members/";
  for (int i = 0; i < 12; ++i) path += "größere-vögel/";
  const auto lines = wrapped("see " + path, 60.0, kSizeMm);
  EXPECT_THAT(lines, Each(ResultOf(width_mm, testing::Le(60.0))));
  std::string joined;
  for (const std::string& line : lines) {
    EXPECT_NE(static_cast<unsigned char>(line[0]) & 0xC0, 0x80) << line;  // whole characters
    joined += line;
  }
  EXPECT_EQ(joined, "see" + path);
}

TEST(Wrapped, TakesACharacterALineWhereNothingFits) {
  EXPECT_THAT(wrapped("abc", 0.1, kSizeMm), ElementsAre("a", "b", "c"));
}

TEST(Shortened, EndsInAnEllipsisThatFits) {
  EXPECT_EQ(shortened("wren", 50, kSizeMm), "wren");
  const std::string text = shortened("a long name of a small bird", 30.0, kSizeMm);
  EXPECT_TRUE(text.ends_with("\u2026"));
  EXPECT_LE(width_mm(text), 30.0);
  EXPECT_GT(width_mm(text), 24.0);
}

}  // namespace
}  // namespace versolay
