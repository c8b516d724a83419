#include <gtest/gtest.h>

#include <cmath>

#include "target/data_matrix.h"
#include "target/modules.h"
#include "target/waste_code.h"
#include "target/waste_geometry.h"

namespace versolay {
namespace {

ProductionPage page_of(Side side, Turn turn, const char* paper) {
  ProductionPage page;
  page.identity = {parse_paper(paper), turn, "K7QX", 27, side};
  page.layout = {5.6, true, false, 38.9, 8.9, 71};
  page.correction = *coded_correction({-0.4217, 0.3104, -1.7003, -350.2, 219.6, -0.4004});
  return page;
}

TEST(WasteCode, SaysWhatWentIn) {
  for (const Side side : {Side::recto, Side::verso}) {
    for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
      for (const char* paper : {"a4", "a3", "letter", "tabloid", "250x200mm", "297x210mm"}) {
        const ProductionPage page = page_of(side, turn, paper);
        const std::string digits = waste_code_digits(page);
        EXPECT_EQ(digits.size(), 62u);
        EXPECT_EQ(production_page_from_digits(digits), page) << digits;
      }
    }
  }
}

// As sheets were printed before the rings reached into the corners: multiples of 7.617 mm from the
// middle of every edge, rims 5.6 mm from the edge.
TEST(WasteCode, KnowsTheLatticeOfOlderSheets) {
  ProductionPage page = page_of(Side::recto, Turn::long_edge, "a4");
  page.layout.lattice = WasteLattice::from_middle;
  const std::string digits = waste_code_digits(page);
  EXPECT_EQ(digits.substr(0, 2), "01");
  const auto read = production_page_from_digits(digits);
  ASSERT_TRUE(read);
  EXPECT_EQ(*read, page);
  const TargetGeometry geometry =
      waste_geometry(page.identity.paper, page.identity.turn, read->layout);
  int rings = 0;
  for (const Mark& mark : geometry.marks) {
    if (mark.kind != MarkKind::ring) continue;
    ++rings;
    const double steps = mark.at.x / 7.617;
    EXPECT_NEAR(steps, std::round(steps), 1e-9) << mark.id;
    EXPECT_NEAR(std::abs(mark.at.y), 148.5 - 5.6 - 1.425, 1e-9) << mark.id;
  }
  // 12 steps of 7.617 mm fit into half of 210 - 2 x 7.025 mm: 25 places, two edges, two sides.
  EXPECT_EQ(rings, 25 * 2 * 2);
}

TEST(WasteCode, AFormatOfTomorrowIsNotGuessedAt) {
  ProductionPage page = page_of(Side::recto, Turn::long_edge, "a4");
  page.layout.lattice = static_cast<WasteLattice>(3);
  EXPECT_EQ(production_page_from_digits(waste_code_digits(page)), std::nullopt);
}

TEST(WasteCode, NoticesEveryWrongDigit) {
  const std::string digits = waste_code_digits(page_of(Side::verso, Turn::long_edge, "a4"));
  for (std::size_t i = 0; i < digits.size(); ++i) {
    for (char c = '0'; c <= '9'; ++c) {
      if (c == digits[i]) continue;
      std::string wrong = digits;
      wrong[i] = c;
      EXPECT_EQ(production_page_from_digits(wrong), std::nullopt) << i;
    }
  }
}

TEST(WasteCode, PassesOverForeignTexts) {
  EXPECT_EQ(production_page_from_digits(""), std::nullopt);
  EXPECT_EQ(production_page_from_digits("VL1/2100X2970/L/K7QX/012/R"), std::nullopt);
  EXPECT_EQ(production_page_from_digits(std::string(62, '0')), std::nullopt);
  EXPECT_EQ(production_page_from_digits(std::string(61, '1') + "x"), std::nullopt);
}

TEST(WasteCode, CarriesCorrectionsToTheMicrometreAndRefusesWildOnes) {
  const auto coded = coded_correction({1.23456, -4.9994, 17.00049, 4999.4, -0.4, 4.9991});
  ASSERT_TRUE(coded);
  EXPECT_NEAR(coded->dx_mm, 1.235, 1e-12);
  EXPECT_NEAR(coded->dy_mm, -4.999, 1e-12);
  EXPECT_NEAR(coded->rotation_mrad, 17.000, 1e-12);
  EXPECT_EQ(coded->scale_x_ppm, 4999);
  EXPECT_EQ(coded->scale_y_ppm, 0);
  EXPECT_EQ(coded_correction(*coded), coded);
  EXPECT_FALSE(coded_correction({5.0, 0, 0, 0, 0, 0}));
  EXPECT_FALSE(coded_correction({0, 0, -50.0, 0, 0, 0}));
  EXPECT_FALSE(coded_correction({0, 0, 0, 0, 5000, 0}));
}

// Source  ISO/IEC 16022: a solid line at the left and at the bottom, broken lines at the top and at
//         the right; size 16 x 36 has two regions, so the same pattern once more in the middle.
TEST(WasteCode, DrawsADataMatrixOf16By36) {
  const ModuleGrid code =
      data_matrix_modules(waste_code_digits(page_of(Side::recto, Turn::long_edge, "a4")));
  ASSERT_EQ(code.rows, 16);
  ASSERT_EQ(code.columns, 36);
  for (int row = 0; row < 16; ++row) {
    EXPECT_TRUE(code.at(row, 0));
    EXPECT_TRUE(code.at(row, 18));
    EXPECT_EQ(code.at(row, 35), row % 2 == 1) << row;
    EXPECT_EQ(code.at(row, 17), row % 2 == 1) << row;
  }
  for (int column = 0; column < 36; ++column) {
    EXPECT_TRUE(code.at(15, column));
    EXPECT_EQ(code.at(0, column), column % 2 == 0) << column;
  }
}

TEST(Modules, TurnClockwise) {
  const ModuleGrid grid{2, 3, {true, false, false, false, false, true}};
  const ModuleGrid quarter = turned(grid);
  ASSERT_EQ(quarter.rows, 3);
  ASSERT_EQ(quarter.columns, 2);
  EXPECT_TRUE(quarter.at(0, 1));  // the upper left one is at the upper right
  EXPECT_TRUE(quarter.at(2, 0));
  EXPECT_FALSE(quarter.at(0, 0));
}

}  // namespace
}  // namespace versolay
