#include <gtest/gtest.h>

#include <string>

#include "words/translation.h"

namespace versolay {
namespace {

// Without translate_texts() there is no other language; tests/cli/messages_test.sh has one.

TEST(Translation, IsTheEnglishWhereThereIsNoCatalogue) {
  EXPECT_STREQ(tr("a text"), "a text");
  EXPECT_STREQ(tr(""), "");
  EXPECT_EQ(tr("{} of {}, {:.1f} mm", 2, std::string("three"), 0.25), "2 of three, 0.2 mm");
  EXPECT_EQ(trn("{} sheet of {}", "{} sheets of {}", 1, "a run"), "1 sheet of a run");
  EXPECT_EQ(trn("{} sheet of {}", "{} sheets of {}", 0, "a run"), "0 sheets of a run");
}

TEST(Translation, OfAMarkedTextIsFoundWhereItIsShown) {
  static constexpr const char* kWord = tr_noop("upper");
  EXPECT_STREQ(tr(kWord), "upper");
}

}  // namespace
}  // namespace versolay
