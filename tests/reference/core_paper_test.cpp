#include <gmock/gmock.h>

#include <cmath>

#include "versolay/paper.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;

/// ISO 216: A0 has 1 m2 and sides 1 : sqrt 2; each size is the one before, halved across its long
/// side, rounded down to whole millimetres.
Paper iso_a(int number) {
  double width = 841;
  double height = 1189;
  for (int i = 0; i < number; ++i) {
    const double halved = std::floor(height / 2);
    height = width;
    width = halved;
  }
  return {"a" + std::to_string(number), width, height};
}

// Source  ISO 216:2007, construction of the A series (from memory); 841 x 1189 mm for A0.
TEST(Paper, A3AndA4AreThoseOfIso216) {
  EXPECT_EQ(parse_paper("a4"), iso_a(4));
  EXPECT_EQ(parse_paper("A3"), iso_a(3));
}

// Source  ANSI/ASME Y14.1 sizes A and B: 8.5 x 11 and 11 x 17 inch (from memory); 25.4 mm to the
// inch exactly, International yard and pound agreement, 1959.
TEST(Paper, LetterAndTabloidAreTheirInches) {
  EXPECT_DOUBLE_EQ(parse_paper("letter").width_mm, 215.9);
  EXPECT_DOUBLE_EQ(parse_paper("letter").height_mm, 279.4);
  EXPECT_DOUBLE_EQ(parse_paper("tabloid").width_mm, 279.4);
  EXPECT_DOUBLE_EQ(parse_paper("tabloid").height_mm, 431.8);
}

TEST(Paper, CustomSizesAreReadInMillimetres) {
  EXPECT_EQ(parse_paper("200x280mm"), (Paper{"200x280mm", 200, 280}));
  EXPECT_EQ(parse_paper("210x297mm").name, "a4");
  EXPECT_EQ(parse_paper("297X210MM").width_mm, 297);
}

TEST(Paper, NonsenseIsRefusedWithAnExample) {
  for (const char* text : {"", "a9", "200x280", "200mm", "-200x280mm", "20x28mm", "nanxnanmm",
                           "200x2800mm", "200 x 280mm"}) {
    try {
      parse_paper(text);
      ADD_FAILURE() << text << " was taken for a paper";
    } catch (const Error& e) {
      EXPECT_THAT(e.what(), HasSubstr("not_a_paper"));
    }
  }
}

}  // namespace
}  // namespace versolay
