#include <gmock/gmock.h>

#include "app/words.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using ::testing::MatchesRegex;
using ::testing::Not;
using ::testing::StartsWith;

Advice some_advice() {
  Advice a;
  a.request.grid.card = {63, 88};
  a.shift.dx_mm = -0.34;
  a.shift.dy_mm = 0.37;
  a.shift.rotation_mrad = -0.95;
  a.oversize = {0.871, 0.871, 11, 11};
  a.total_width_px = 22;
  a.total_height_px = 22;
  a.expected_good = {8.84, 8.26, 9.0, 96.3, 9};
  return a;
}

PrinterProfile some_profile() {
  PrinterProfile p;
  p.mean = {0.34, -0.37, 0.95};
  p.n_feeds = 8;
  p.mean_feeds = 8;
  p.spread_dof = 7;
  return p;
}

TEST(LandingWords, SayWhichWayTheBackIsOff) {
  EXPECT_EQ(landing_words({0.34, -0.37, 0.95}),
            "0.34 mm too far right and 0.37 mm too far up, turned 0.95 mrad (0.054 degrees) "
            "clockwise, seen from the back");
  EXPECT_EQ(landing_words({-0.34, 0.37, -0.95}),
            "0.34 mm too far left and 0.37 mm too far down, turned 0.95 mrad (0.054 degrees) "
            "anticlockwise, seen from the back");
}

TEST(VerdictWords, FirstSentenceSaysWhatToDoWithDirectionUnitAndTotal) {
  EXPECT_THAT(
      verdict_words(some_advice(), some_profile()),
      StartsWith("Move the back image 0.34 mm (4 px at 300 ppi) to the left and 0.37 mm (4.4 px at "
                 "300 ppi) down, seen from the back, turn it 0.95 mrad (0.054 degrees) "
                 "anticlockwise about the centre of the page, and let it reach 0.88 mm (11 px at "
                 "300 ppi) beyond the card on each of its four sides: 22 px more in width and in "
                 "height in total.\n"));
}

TEST(VerdictWords, SecondSentenceStatesCoverageAndConfidence) {
  EXPECT_THAT(
      verdict_words(some_advice(), some_profile()),
      HasSubstr(".\nAt least 95 % of future cards will then show no sliver at an edge; this "
                "holds with 90 % confidence, from 8 feeds.\n"));
  Advice by_sheet = some_advice();
  by_sheet.request.count = CountBy::sheet;
  by_sheet.request.coverage = 0.995;
  EXPECT_THAT(verdict_words(by_sheet, some_profile()),
              HasSubstr("At least 99.5 % of future sheets"));
}

TEST(VerdictWords, TheOppositeOffsetAsksForTheOppositeMovement) {
  Advice a = some_advice();
  a.shift.dx_mm = 0.34;
  a.shift.dy_mm = -0.37;
  a.shift.rotation_mrad = 0.95;
  const std::string text = verdict_words(a, some_profile());
  EXPECT_THAT(text, HasSubstr("to the right"));
  EXPECT_THAT(text, HasSubstr(" up, seen from the back"));
  EXPECT_THAT(text, HasSubstr(" clockwise about"));
}

TEST(VerdictWords, LeaveOutMovementsThatWouldReadZero) {
  Advice a = some_advice();
  a.shift.dx_mm = 0.001;
  a.shift.rotation_mrad = 0.0;
  EXPECT_THAT(
      verdict_words(a, some_profile()),
      StartsWith("Move the back image 0.37 mm (4.4 px at 300 ppi) down, seen from the back, "
                 "and let it reach"));
}

TEST(VerdictWords, SayWhyThereIsNoShift) {
  Advice a = some_advice();
  a.shift = {};
  a.no_shift = NoShift::not_real;
  EXPECT_THAT(verdict_words(a, some_profile()),
              MatchesRegex("Leave the back image where it is: it landed 0.34 mm .* which can be "
                           "luck, and let it reach .*"));
  a.no_shift = NoShift::not_settable;
  EXPECT_THAT(verdict_words(a, some_profile()), HasSubstr("less than one pixel"));
}

TEST(VerdictWords, SidesThatDifferAreStatedOneByOne) {
  Advice a = some_advice();
  a.oversize = {0.953, 0.782, 12, 10};
  a.total_width_px = 24;
  a.total_height_px = 20;
  const std::string text = verdict_words(a, some_profile());
  EXPECT_THAT(text, HasSubstr("0.96 mm (12 px at 300 ppi) beyond the card on its left and on its "
                              "right, and 0.79 mm (10 px) at its top and at its bottom: 24 px more "
                              "in width and 20 px more in height in total"));
}

TEST(VerdictWords, TellOfSheetsAndCentringOnlyWhenAsked) {
  Advice a = some_advice();
  EXPECT_THAT(verdict_words(a, some_profile()), Not(HasSubstr("Centring")));
  a.request.cards = 54;
  a.sheets_needed = 6;
  a.sheets_to_print = 7;
  a.centring = Centring{3.0, 54.0, 64.4};
  const std::string text = verdict_words(a, some_profile());
  EXPECT_THAT(text, HasSubstr("54 cards are 6 sheets: print 7."));
  EXPECT_THAT(text, HasSubstr("typically 54/46, and 64/36 or better on 95 % of the cards"));
}

TEST(ProfileWords, WithoutASpreadTellTheMeanOnly) {
  PrinterProfile p = some_profile();
  p.spread_dof = 0;
  p.mean_feeds = 1;
  EXPECT_THAT(profile_words(p), HasSubstr("(1 sheet)."));
  EXPECT_THAT(profile_words(p), Not(HasSubstr("varies")));
}

}  // namespace
}  // namespace versolay
