#include <gtest/gtest.h>

#include <algorithm>

#include "artwork/lettering.h"

namespace versolay {
namespace {

/// The first and the last row with ink, from the base line; y down.
std::pair<int, int> rows_of(const LetteredLine& line) {
  int first = line.height_px;
  int last = -1;
  for (int y = 0; y < line.height_px; ++y) {
    for (int x = 0; x < line.width_px; ++x) {
      if (line.at(x, y) < 128) continue;
      first = std::min(first, y);
      last = y;
    }
  }
  return {line.top_px + first, line.top_px + last};
}

// SOURCE  advance widths in the hmtx table of DejaVuSans.ttf 2.37, units of 1/2048 em: i 569, n
// 1298, W 2025 (read by a separate script, as in pdf_document_test).
TEST(Lettering, AdvancesAreThoseOfTheFont) {
  EXPECT_NEAR(Lettering().width_px("inW", 100), (569 + 1298 + 2025) / 2048.0 * 100, 0.05);
  EXPECT_EQ(Lettering().width_px("", 100), 0.0);
}

// SOURCE  the same font, outline of H: from 0 to 1493 units of 1/2048 em.
TEST(Lettering, CapitalsStandOnTheBaseLine) {
  const auto [top, bottom] = rows_of(Lettering().line("H", 100));
  EXPECT_NEAR(top, -1493 / 2048.0 * 100, 1.5);
  EXPECT_EQ(bottom, -1);
}

TEST(Lettering, HasRealSignsBeyondAscii) {
  const Lettering letters;
  const LetteredLine none = letters.line("\xF4\x8F\xBF\xBF", 40);  // U+10FFFF: in no font
  for (const char* sign : {"\u00b1", "\u00b5", "\u00d7", "\u00e9", "\u0416"}) {
    const LetteredLine line = letters.line(sign, 40);
    EXPECT_NE(line.cover, none.cover) << sign;
    EXPECT_NE(line.cover, letters.line("?", 40).cover) << sign;
  }
}

TEST(Lettering, BytesThatAreNoTextAreShownAsSuch) {
  const Lettering letters;
  EXPECT_EQ(letters.line("a\xFF", 20).cover, letters.line("a\uFFFD", 20).cover);
}

}  // namespace
}  // namespace versolay
