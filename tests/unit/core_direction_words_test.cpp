#include <gtest/gtest.h>

#include "core/direction_words.h"

namespace versolay {
namespace {

TEST(DirectionWords, WhatIsNotZeroNeverReadsZero) {
  EXPECT_EQ(mm_words(0.344), "0.34 mm");
  EXPECT_EQ(mm_words(-0.344), "0.34 mm");
  EXPECT_EQ(mm_words(0.0049), "0.005 mm");
  EXPECT_EQ(mm_words(-0.0012), "0.001 mm");
  EXPECT_EQ(mm_words(0.00001), "under 0.001 mm");
  EXPECT_EQ(mm_words(0.0), "0.00 mm");
  EXPECT_EQ(degrees_words(0.95), "0.054 degrees");
  EXPECT_EQ(degrees_words(0.005), "0.0003 degrees");
}

TEST(DirectionWords, AnOversizeIsNeverRoundedDown) {
  EXPECT_EQ(mm_words_up(0.8711), "0.88 mm");
  EXPECT_EQ(mm_words_up(0.87), "0.87 mm");
  EXPECT_EQ(mm_words_up(0.001), "0.01 mm");
}

}  // namespace
}  // namespace versolay
