#include <gtest/gtest.h>

#include "imposition/card_thickness.h"
#include "versolay/result.h"

namespace versolay {
namespace {

// Source  worked example of the trade (derived from published calipers): paper of 0.22 mm in
// pouches
//         of 75 to 80 um a side makes cards of 0.37 to 0.38 mm; 54 of them about 20 mm.
TEST(CardThickness, IsThatOfTheWorkedExample) {
  const Thickness paper = parse_thickness("--paper-thickness", "220um");
  const CardThickness thin = card_thickness(paper, parse_thickness("--pouch", "75um"), 54);
  const CardThickness thick = card_thickness(paper, parse_thickness("--pouch", "0.08mm"), 54);
  EXPECT_NEAR(thin.card.low_mm, 0.37, 1e-9);
  EXPECT_NEAR(thick.card.high_mm, 0.38, 1e-9);
  EXPECT_NEAR(thin.deck.low_mm, 20, 0.5);
  EXPECT_NEAR(thick.deck.high_mm, 20.5, 0.1);
}

// Source  films of 3, 5, 7, 10 mil are sold as 76, 127, 178, 254 um (published).
TEST(CardThickness, KnowsMils) {
  const std::pair<const char*, double> films[] = {
      {"3mil", 0.076}, {"5mil", 0.127}, {"7mil", 0.178}, {"10mil", 0.254}};
  for (const auto& [text, mm] : films) {
    EXPECT_NEAR(parse_thickness("--pouch", text).low_mm, mm, 0.0005) << text;
  }
}

// Source  180 to 200 gsm papers have calipers of 150 to 280 um (published).
TEST(CardThickness, GivesARangeForAWeight) {
  EXPECT_NEAR(parse_thickness("--paper-thickness", "180gsm").low_mm, 0.150, 0.001);
  EXPECT_NEAR(parse_thickness("--paper-thickness", "200gsm").high_mm, 0.280, 0.001);
  const CardThickness t = card_thickness(parse_thickness("--p", "200gsm"), std::nullopt, 10);
  EXPECT_NEAR(t.card.low_mm, 0.166, 1e-9);
  EXPECT_NEAR(t.deck.high_mm, 2.8, 1e-9);
}

TEST(CardThickness, RefusesNonsense) {
  for (const char* text : {"", "220", "um", "thin", "-5um", "5mm", "1um", "nanmm"}) {
    EXPECT_THROW((void)parse_thickness("--paper-thickness", text), Error) << text;
  }
}

}  // namespace
}  // namespace versolay
