#include <gmock/gmock.h>

#include "app/rejected_text.h"

namespace versolay {
namespace {

TEST(RejectedText, SaysEachReasonOnce) {
  std::vector<RejectedInput> rejected;
  for (int sheet = 1; sheet <= 8; ++sheet) {
    rejected.push_back(
        {"f" + std::to_string(sheet) + ".png", "wrong_turn",
         "Sheet " + std::to_string(sheet) + ": It was turned about the other edge."});
  }
  rejected.push_back({"owl.png", "no_marks", "No target was found."});
  const Notices notices = rejected_notices(rejected);
  ASSERT_EQ(notices.size(), 2u);
  EXPECT_EQ(notices[0].code, "wrong_turn");
  EXPECT_EQ(notices[0].message,
            "Sheets 1, 2, 3, 4 and 4 more (f1.png, f2.png, f3.png, f4.png and 4 more): It was "
            "turned about the other edge.");
  EXPECT_EQ(notices[1].message, "owl.png: No target was found.");
}

TEST(RejectedText, KeepsReasonsThatDifferApart) {
  const Notices notices =
      rejected_notices({{"a.png, b.png", "holes_disagree", "Sheet 1: By 0.1 mm."},
                        {"c.png, d.png", "holes_disagree", "Sheet 2: By 0.2 mm."},
                        {"e.png", "no_marks", "Sheet: none."},
                        {"f.png", "no_marks", "Sheet: none."}});
  ASSERT_EQ(notices.size(), 3u);
  EXPECT_EQ(notices[1].message, "Sheet 2 (c.png, d.png): By 0.2 mm.");
  EXPECT_EQ(notices[2].message, "e.png and f.png: Sheet: none.");
}

}  // namespace
}  // namespace versolay
