#include <gtest/gtest.h>

#include <clocale>

#include "core/numbers.h"

namespace versolay {
namespace {

TEST(Numbers, AreReadWholeOrNotAtAll) {
  EXPECT_EQ(parse_number("2.5"), 2.5);
  for (const char* text : {"", "2,5", "2.5mm", " 2.5", "nan", "inf", "1e999", "0x10"}) {
    EXPECT_EQ(parse_number(text), std::nullopt) << text;
  }
  EXPECT_EQ(parse_pair("63x88"), (std::pair{63.0, 88.0}));
  EXPECT_EQ(parse_pair("63X"), std::nullopt);
}

TEST(Numbers, AreWrittenWithAPointInEveryLocale) {
  const char* before = std::setlocale(LC_ALL, nullptr);
  const std::string kept = before ? before : "C";
  std::setlocale(LC_ALL, "de_DE.UTF-8");  // where it is not installed the test is the plain case
  EXPECT_EQ(format_fixed(1234.5, 2), "1234.50");
  EXPECT_EQ(format_number(2.50, 3), "2.5");
  EXPECT_EQ(parse_number("2.5"), 2.5);
  std::setlocale(LC_ALL, kept.c_str());
}

TEST(Numbers, ZeroHasNoSign) {
  EXPECT_EQ(format_fixed(-0.0004, 2), "0.00");
  EXPECT_EQ(format_number(-0.0004, 2), "0");
  EXPECT_EQ(format_number(100.0, 0), "100");
}

}  // namespace
}  // namespace versolay
