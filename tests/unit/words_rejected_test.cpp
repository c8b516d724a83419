#include <gmock/gmock.h>

#include "core/finding_json.h"
#include "registration/findings.h"
#include "words/findings.h"
#include "words/rejected.h"
#include "words/say.h"

namespace versolay::words {
namespace {

/// A finding that brings its sentence along.
Finding told(const std::string& code, const std::string& sentence) {
  return {code, {{"message", sentence}}};
}

TEST(RejectedText, SaysEachReasonOnce) {
  std::vector<RejectedInput> rejected;
  for (int sheet = 1; sheet <= 8; ++sheet) {
    rejected.push_back({{"f" + std::to_string(sheet) + ".png"}, sheet, findings::no_holes()});
  }
  rejected.push_back({{"owl.png"}, std::nullopt, told("no_marks", "No target was found.")});
  const auto texts = rejected_texts(rejected);
  ASSERT_EQ(texts.size(), 2u);
  EXPECT_EQ(texts[0].why.code, "no_holes");
  EXPECT_EQ(texts[0].text,
            "Sheets 1, 2, 3, 4 and 4 more (f1.png, f2.png, f3.png, f4.png and 4 more): No holes "
            "were found. Punch the sheet once on each short edge, inside the dashed circles, and "
            "scan both sides with black card behind.");
  EXPECT_EQ(texts[1].text, "owl.png: No target was found.");
}

TEST(RejectedText, KeepsReasonsThatDifferApart) {
  const auto texts = rejected_texts({{{"a.png", "b.png"}, 1, told("holes_disagree", "By 0.1 mm.")},
                                     {{"c.png", "d.png"}, 2, told("holes_disagree", "By 0.2 mm.")},
                                     {{"e.png"}, std::nullopt, told("no_marks", "None.")},
                                     {{"f.png"}, std::nullopt, told("no_marks", "None.")}});
  ASSERT_EQ(texts.size(), 3u);
  EXPECT_EQ(texts[1].text, "Sheet 2 (c.png and d.png): By 0.2 mm.");
  EXPECT_EQ(texts[2].text, "e.png and f.png: None.");
}

TEST(RejectedText, OfAFindingThatHoldsThem) {
  const std::vector<RejectedInput> rejected = {{{"a.png", "b.png"}, 1, findings::no_holes()},
                                               {{"c.png"}, std::nullopt, findings::hole_contrast()},
                                               {{}, 4, findings::fed_round_not_read(4)}};
  const Finding all = findings::no_sheet_read(findings_of(rejected));
  EXPECT_EQ(say(all), "No sheet could be read.\n" + rejected_text(rejected));
  EXPECT_EQ(say(finding_from(json_of(all))), say(all));
  EXPECT_THAT(say(all), ::testing::HasSubstr("\n  Sheet 4: "));
}

}  // namespace
}  // namespace versolay::words
