#include <gtest/gtest.h>

#include "words/direction_words.h"
#include "words/display_unit.h"

namespace versolay {
namespace {

TEST(DirectionWords, WhatIsNotZeroNeverReadsZero) {
  EXPECT_EQ(distance_words(0.344), "0.34 mm");
  EXPECT_EQ(distance_words(-0.344), "0.34 mm");
  EXPECT_EQ(distance_words(0.0049), "0.005 mm");
  EXPECT_EQ(distance_words(-0.0012), "0.001 mm");
  EXPECT_EQ(distance_words(0.00001), "under 0.001 mm");
  EXPECT_EQ(distance_words(0.0), "0.00 mm");
  EXPECT_EQ(angle_words(0.95), "0.054 degrees");
  EXPECT_EQ(angle_words(0.005), "0.0003 degrees");
}

TEST(DirectionWords, AnOversizeIsNeverRoundedDown) {
  EXPECT_EQ(distance_words_up(0.8711), "0.88 mm");
  EXPECT_EQ(distance_words_up(0.87), "0.87 mm");
  EXPECT_EQ(distance_words_up(0.001), "0.01 mm");
}

TEST(DirectionWords, MillimetresStandBeforePixels) {
  EXPECT_EQ(length_words(-0.44, 300), "0.44 mm (5.2 px at 300 ppi)");
  EXPECT_EQ(short_length_words(0.44, 300), "0.44 mm (5.2 px)");
  EXPECT_EQ(oversize_length_words(0.961, 12, 300), "0.97 mm (12 px at 300 ppi)");
  EXPECT_EQ(shift_in_words(0.44, -0.2, 300),
            "0.44 mm (5.2 px) to the right and 0.20 mm (2.4 px) up");
}

TEST(DirectionWords, PixelsStandFirstWhenAskedFor) {
  const DisplayUnit px = display_unit(Units::px, 600);
  EXPECT_EQ(length_words(0.44, 300, px), "5.2 px at 300 ppi (0.44 mm)");
  EXPECT_EQ(oversize_length_words(0.961, 12, px), "12 px (0.97 mm)");
  EXPECT_EQ(distance_words(0.254, px), "6.0 px");
  EXPECT_EQ(distance_words(0.0001, px), "under 0.01 px");
}

TEST(DirectionWords, InchesAreAsFineAsMillimetres) {
  const DisplayUnit in = display_unit(Units::inches, 300);
  EXPECT_EQ(distance_words(0.254, in), "0.0100 in");
  EXPECT_EQ(distance_words_up(0.2541, in), "0.0101 in");
  EXPECT_EQ(length_words(0.254, 300, in), "0.0100 in (3 px at 300 ppi)");
}

}  // namespace
}  // namespace versolay
