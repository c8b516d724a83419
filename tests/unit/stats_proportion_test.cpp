#include <gmock/gmock.h>

#include <array>

#include "stats/proportion.h"

namespace versolay::stats {
namespace {

// SOURCE  0 of n: 1 - 0.1^(1/n). 1 of n: R 4.2.2, qbeta(.9, 2, n - 1).
TEST(ClopperPearson, UpperBoundsOfFewEvents) {
  EXPECT_NEAR(clopper_pearson_upper(0, 5, .90), 0.369, 0.0005);
  EXPECT_NEAR(clopper_pearson_upper(0, 10, .90), 0.206, 0.0005);
  EXPECT_NEAR(clopper_pearson_upper(0, 20, .90), 0.109, 0.0005);
  EXPECT_NEAR(clopper_pearson_upper(1, 10, .90), 0.337, 0.0005);
  EXPECT_NEAR(clopper_pearson_upper(1, 20, .90), 0.181, 0.0005);
}

TEST(ClopperPearson, ReachesTheEnds) {
  EXPECT_EQ(clopper_pearson_upper(7, 7, .90), 1.0);
  EXPECT_EQ(clopper_pearson_lower(0, 7, .90), 0.0);
}

TEST(SheetsToPrint, SixGoodSheetsAtNinetyFivePercentNeedSeven) {
  // 0.95^6 = 0.735; of seven at least six are good with 0.95^7 + 7 * 0.05 * 0.95^6 = 0.956.
  EXPECT_NEAR(probability_of_at_least(6, 6, 0.95), 0.735, 0.0005);
  EXPECT_NEAR(probability_of_at_least(6, 7, 0.95), 0.956, 0.0005);
  EXPECT_EQ(sheets_to_print(6, std::array{0.95}, 0.95, 100), 7);
  EXPECT_EQ(sheets_to_print(6, std::array{0.9915}, 0.95, 100), 6);
}

TEST(SheetsToPrint, NeedsMoreWhereTheChanceItselfIsUncertain) {
  const auto certain = sheets_to_print(20, std::array{0.9}, 0.95, 1000);
  const auto uncertain = sheets_to_print(20, std::array{0.8, 0.9, 1.0}, 0.95, 1000);
  ASSERT_TRUE(certain && uncertain);
  EXPECT_GT(*uncertain, *certain);
}

TEST(SheetsToPrint, GivesUpWhereNoNumberIsEnough) {
  EXPECT_EQ(sheets_to_print(6, std::array{0.0}, 0.95, 1000), std::nullopt);
}

}  // namespace
}  // namespace versolay::stats
