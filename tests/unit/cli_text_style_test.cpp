#include <gtest/gtest.h>

#include "cli/text_style.h"

namespace versolay::cli {
namespace {

TEST(TextStyle, BreaksProseAtSpaces) {
  EXPECT_EQ(wrapped_for("Move the back image to the left", 20), "Move the back image\nto the left");
}

TEST(TextStyle, KeepsTheIndentOfALine) {
  EXPECT_EQ(wrapped_for("  Punch once on each short edge", 20),
            "  Punch once on each\n  short edge");
}

TEST(TextStyle, HangsWhatFollowsBehindAWideGap) {
  EXPECT_EQ(wrapped_for("  backs   moved 0.47 mm to the left", 26),
            "  backs   moved 0.47 mm to\n          the left");
}

TEST(TextStyle, KeepsANumberAndItsUnitTogether) {
  EXPECT_EQ(wrapped_for("Let it reach far: 0.47 mm, or less", 22),
            "Let it reach far:\n0.47 mm, or less");
}

TEST(TextStyle, LeavesShortLinesAlone) {
  EXPECT_EQ(wrapped_for("short\nlines\n", 20), "short\nlines\n");
}

TEST(TextStyle, DoesNotBreakWhatIsPiped) {
  const std::string line(200, 'a');
  EXPECT_EQ(wrapped_for(line + " " + line, 0), line + " " + line);
}

TEST(TextStyle, CountsCharactersNotBytes) {
  // 20 characters in 22 bytes.
  EXPECT_EQ(wrapped_for("M\xC3\xB6we und Uhu, \xC3\xA4lter", 20),
            "M\xC3\xB6we und Uhu, \xC3\xA4lter");
}

TEST(TextStyle, AWordThatIsTooLongStaysWhole) {
  EXPECT_EQ(wrapped_for("to /a/very/long/path/indeed/it/is now", 20),
            "to\n/a/very/long/path/indeed/it/is\nnow");
}

TEST(TextStyle, IsPlainUnlessWanted) {
  EXPECT_EQ(bold("x", false), "x");
  EXPECT_EQ(bold("x", true), "\033[1mx\033[0m");
}

}  // namespace
}  // namespace versolay::cli
