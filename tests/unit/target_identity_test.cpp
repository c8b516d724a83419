#include <gmock/gmock.h>

#include <set>

#include "target/identity.h"
#include "target/modules.h"
#include "target/qr_code.h"

namespace versolay {
namespace {

TEST(Identity, SurvivesItsCodeText) {
  for (const char* paper : {"a4", "a3", "letter", "tabloid", "203.4x281.7mm", "297x210mm"}) {
    for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
      for (const Side side : {Side::recto, Side::verso}) {
        const PageIdentity identity{parse_paper(paper), turn, "K7QX", 123, side};
        const std::string text = code_text(identity);
        EXPECT_LE(text.size(), 29u);
        EXPECT_EQ(identity_from_code_text(text), identity) << text;
      }
    }
  }
}

TEST(Identity, ForeignAndDamagedTextsAreNotTaken) {
  for (const char* text :
       {"", "hello", "VL2/2100X2970/L/K7QX/012/R", "VL1/2100X2970/L/K7QX/012",
        "VL1/2100X2970/Q/K7QX/012/R", "VL1/2100X2970/L/K7QX/000/R", "VL1/9X9/L/K7QX/012/R",
        "VL1/2100X2970/L/k7qx/012/R", "VL1/2100X2970/L/K7QX/012/R/"}) {
    EXPECT_EQ(identity_from_code_text(text), std::nullopt) << text;
  }
}

TEST(Identity, EveryTagNumberMeansOneThing) {
  std::set<int> numbers;
  for (int slot = 0; slot < kTagSlots; ++slot) {
    for (const Side side : {Side::recto, Side::verso}) {
      for (int position = 0; position < 8; ++position) {
        const TagMeaning meaning{slot, side, position};
        const int number = tag_number(meaning);
        EXPECT_EQ(tag_meaning(number), meaning);
        numbers.insert(number);
      }
    }
  }
  for (const Side side : {Side::recto, Side::verso}) {
    for (int position = 0; position < 4; ++position) {
      const TagMeaning meaning{0, side, position, true};
      EXPECT_EQ(tag_meaning(tag_number(meaning)), meaning);
      numbers.insert(tag_number(meaning));
    }
  }
  EXPECT_EQ(numbers.size(), 584u);
  EXPECT_LT(*numbers.rbegin(), 587);  // the family has 587 tags
  EXPECT_EQ(tag_meaning(584), std::nullopt);
  EXPECT_EQ(tag_meaning(-1), std::nullopt);
}

TEST(Identity, RunCodesHaveNoLookAlikes) {
  for (std::uint32_t bits = 0; bits < 1u << 20; bits += 997) {
    const std::string code = run_code(bits * 4099u);
    EXPECT_EQ(code.size(), 4u);
    EXPECT_EQ(code.find_first_of("01IO"), std::string::npos) << code;
  }
}

// Source  ISO/IEC 18004: finder patterns 1:1:3:1:1 in three corners, 25 modules for version 2.
TEST(Modules, OfACodeHaveThreeFinderPatterns) {
  const ModuleGrid code =
      qr_modules(code_text({parse_paper("a4"), Turn::long_edge, "K7QX", 1, Side::recto}));
  ASSERT_EQ(code.rows, 25);
  ASSERT_EQ(code.columns, 25);
  const auto finder_at = [&](int row, int column) {
    for (int i = 0; i < 7; ++i) {
      for (int j = 0; j < 7; ++j) {
        const int ring = std::max(std::abs(i - 3), std::abs(j - 3));
        if (code.at(row + i, column + j) != (ring != 2)) return false;
      }
    }
    return true;
  };
  EXPECT_TRUE(finder_at(0, 0));
  EXPECT_TRUE(finder_at(0, 18));
  EXPECT_TRUE(finder_at(18, 0));
  EXPECT_FALSE(finder_at(18, 18));
}

TEST(Modules, OfATagHaveABlackBorder) {
  const ModuleGrid tag = tag_modules(7);
  ASSERT_EQ(tag.rows, 8);
  ASSERT_EQ(tag.columns, 8);
  for (int i = 0; i < 8; ++i) {
    EXPECT_TRUE(tag.at(0, i) && tag.at(7, i) && tag.at(i, 0) && tag.at(i, 7));
  }
}

}  // namespace
}  // namespace versolay
