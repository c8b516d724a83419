// SOURCE  RFC 3629 and its section 4 (what is no UTF-8); the examples are those of section 7 and of
// the definition.
#include <gtest/gtest.h>

#include "core/utf8.h"

namespace versolay {
namespace {

TEST(Utf8, CharactersOfEveryLength) {
  EXPECT_EQ(first_character("A")->code_point, 0x41U);
  EXPECT_EQ(first_character("\xC3\xB6")->code_point, 0xF6U);             // o with diaeresis
  EXPECT_EQ(first_character("\xE2\x89\xA2")->code_point, 0x2262U);       // RFC 3629, section 7
  EXPECT_EQ(first_character("\xF0\xA3\x8E\xB4")->code_point, 0x233B4U);  // RFC 3629, section 7
}

TEST(Utf8, WhatIsNone) {
  for (const char* bytes : {"\xFF", "\x80", "\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80",
                            "\xF4\x90\x80\x80", "\xE2\x89", "\xC3("}) {
    EXPECT_FALSE(first_character(bytes)) << bytes;
  }
}

TEST(Utf8, EveryStrayByteIsReplaced) {
  EXPECT_EQ(valid_utf8("Vögel"), "Vögel");
  EXPECT_EQ(valid_utf8("byte\xFF!"), "byte\xEF\xBF\xBD!");
  EXPECT_EQ(valid_utf8("\xE2\x89"), "\xEF\xBF\xBD\xEF\xBF\xBD");
  EXPECT_EQ(valid_utf8(""), "");
}

}  // namespace
}  // namespace versolay
