#include <gmock/gmock.h>

#include "core/whole_words.h"

namespace versolay {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(WholeWords, KeepANumberWithItsUnit) {
  EXPECT_THAT(whole_words("move it 0.44 mm (5.2 px at 300 ppi), 95 % sure."),
              ElementsAre("move", "it", "0.44 mm", "(5.2 px", "at", "300 ppi),", "95 %", "sure."));
}

TEST(WholeWords, LeaveOtherWordsBehindNumbersAlone) {
  EXPECT_THAT(whole_words("8 sheets in 2 sessions, mm first"),
              ElementsAre("8", "sheets", "in", "2", "sessions,", "mm", "first"));
  EXPECT_THAT(whole_words("a  b"), ElementsAre("a", "", "b"));
  EXPECT_THAT(whole_words(""), IsEmpty());
}

}  // namespace
}  // namespace versolay
