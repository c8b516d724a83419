#include <gmock/gmock.h>

#include "profile/findings.h"
#include "words/advice_words.h"
#include "words/check_words.h"
#include "words/compare_words.h"

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
            "0.34 mm too far right and 0.37 mm too far up, turned 0.054 degrees "
            "clockwise, seen from the back");
  EXPECT_EQ(landing_words({-0.34, 0.37, -0.95}),
            "0.34 mm too far left and 0.37 mm too far down, turned 0.054 degrees "
            "anticlockwise, seen from the back");
}

std::string words_of_sessions(double sd_right, double limit_right, double sd_down,
                              double limit_down) {
  PrinterProfile p = some_profile();
  p.sessions.resize(4);
  for (const char* component : {"dx_mm", "dy_mm", "rotation_mrad"}) {
    ComponentShare share;
    share.component = component;
    p.shares.push_back(share);
  }
  p.shares[0].session_sd = sd_right;
  p.shares[0].session_sd_high = limit_right;
  p.shares[1].session_sd = sd_down;
  p.shares[1].session_sd_high = limit_down;
  return profile_words_in_parts(p).sessions;
}

TEST(SessionWords, SayNoZeros) {
  EXPECT_THAT(words_of_sessions(0.12, 0.3, 0.05, 0.2),
              HasSubstr("0.12 mm left-right (at most 0.30 mm), 0.05 mm up-down (at most 0.20 mm)"));
  EXPECT_THAT(words_of_sessions(0.12, 0.3, 0.0, 0.2),
              HasSubstr("no variation seen up-down (at most 0.20 mm)"));
  EXPECT_THAT(words_of_sessions(0.0, 0.0, 0.05, 0.2), HasSubstr("no variation seen left-right, "));
  EXPECT_EQ(words_of_sessions(0.0, 0.0, 0.0, 0.0),
            "The sessions do not differ by more than the sheets of one session do.");
}

TEST(LandingWords, LeaveOutWhatWouldReadZero) {
  EXPECT_EQ(landing_words({0.34, 0.001, 0.0}), "0.34 mm too far right, seen from the back");
  EXPECT_EQ(landing_words({0.0, -0.002, 0.001}), "within 0.01 mm of its place, seen from the back");
  EXPECT_EQ(distance_words(-0.0042), "0.004 mm");
}

TEST(VerdictWords, FirstSentenceSaysWhatToDoWithDirectionUnitAndTotal) {
  EXPECT_THAT(
      verdict_words(some_advice(), some_profile()),
      StartsWith("Move the back image 0.34 mm (4 px at 300 ppi) to the left and 0.37 mm (4.4 px at "
                 "300 ppi) down, seen from the back, turn it 0.054 degrees "
                 "anticlockwise about the centre of the page, and let it reach 0.88 mm (11 px at "
                 "300 ppi) beyond the card on each of its four sides: 22 px more in width and in "
                 "height in total.\n"));
}

TEST(VerdictWords, SecondSentenceStatesCoverageAndConfidence) {
  EXPECT_THAT(
      verdict_words(some_advice(), some_profile()),
      HasSubstr(
          ".\nAt least 95 of 100 cards printed the same way as on that day should show no "
          "sliver (90 % sure, from 8 sheets; another day was not tested). It holds for jobs"));
  Advice by_sheet = some_advice();
  by_sheet.request.count = CountBy::sheet;
  by_sheet.request.coverage = 0.995;
  EXPECT_THAT(verdict_words(by_sheet, some_profile()),
              HasSubstr("All cards of at least 99.5 of 100 sheets"));
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
  a.no_shift = NoShift::not_settable;
  EXPECT_THAT(verdict_words(a, some_profile()), HasSubstr("less than one pixel"));
}

TEST(VerdictWords, SidesThatDifferAreStatedOneByOne) {
  Advice a = some_advice();
  a.oversize = {0.953, 0.782, 12, 10};
  a.total_width_px = 24;
  a.total_height_px = 20;
  const std::string text = verdict_words(a, some_profile());
  EXPECT_THAT(text, HasSubstr("0.96 mm (12 px at 300 ppi) beyond the card on the left and on the "
                              "right, and 0.79 mm (10 px) at the top and at the bottom: 24 px more "
                              "in width and 20 px more in height in total"));
}

TEST(VerdictWords, TellOfSheetsAndCentringOnlyWhenAsked) {
  Advice a = some_advice();
  EXPECT_THAT(verdict_words(a, some_profile()), Not(HasSubstr("Centring")));
  a.request.cards = 54;
  a.sheets_needed = 6;
  a.sheets_to_print = 9;
  a.sheets_for_cards = 7;
  a.centring = Centring{3.0, 0.24, 0.864, 54.0, 64.4};
  const std::string text = verdict_words(a, some_profile());
  EXPECT_THAT(text,
              HasSubstr("54 cards are 6 sheets. Print 9 if a sheet with one bad card is printed "
                        "again as a whole, 7 if only the bad cards are:"));
  EXPECT_THAT(text, HasSubstr("typically 54/46, and 64/36 or better on 95 % of the cards"));
}

TEST(ProfileWords, WithoutASpreadTellTheMeanOnly) {
  PrinterProfile p = some_profile();
  p.spread_dof = 0;
  p.mean_feeds = 1;
  EXPECT_THAT(profile_words(p), HasSubstr("(1 sheet)."));
  EXPECT_THAT(profile_words(p), Not(HasSubstr("varies")));
}

TEST(VerdictWords, SayWhatMoreSheetsWouldSaveInMillimetresAndPixels) {
  Advice a = some_advice();
  a.savings = {{1, {0.821, 0.821, 10, 10}}, {2, {0.781, 0.781, 10, 10}}, {5, {0.691, 0.691, 9, 9}}};
  EXPECT_THAT(verdict_words(a, some_profile()),
              HasSubstr("down by about 0.05 mm (0.6 px) with 1 more, by 0.09 mm (1.1 px) with 2 "
                        "more, by 0.18 mm (2.1 px) with 5 more."));
  a.savings = {{5, {0.870, 0.870, 11, 11}}};
  EXPECT_THAT(verdict_words(a, some_profile()), HasSubstr("would barely reduce the oversize"));
}

TEST(VerdictWords, CompareWithTheEnlargementOfToday) {
  Advice a = some_advice();
  a.by_hand = HandMethod{1.354667, {6.2, 5.0, 7.0, 20.0, 9}, {8.6, 8.0, 9.0, 90.0, 9}};
  EXPECT_THAT(verdict_words(a, some_profile()),
              HasSubstr("Your backs of today, 1.35 mm (16 px at 300 ppi) larger in width and in "
                        "height: 6.2 of 9 cards of a sheet are clean, and 8.6 once they are moved; "
                        "as advised, 8.8."));
  a.by_hand.reset();
  EXPECT_THAT(verdict_words(a, some_profile()), Not(HasSubstr("today")));
}

SharedCuts touching_cards() { return {0.0, 1.8, {5.5, 4.6, 6.2, 20.0, 9}, 0.5678}; }

TEST(VerdictWords, SayWhatThePromiseComesToWhereCardsTouch) {
  Advice a = some_advice();
  a.shared_cuts = touching_cards();
  const std::string either = short_verdict_words(a, some_profile());
  EXPECT_THAT(either, HasSubstr("At least 95 of 100 cards"));
  EXPECT_THAT(either,
              HasSubstr("a picture ends at the cut between the cards, and only 5.5 of 9 cards "
                        "of a sheet are clean on average. A gutter of 1.80 mm"));
  a.request.back_edge = EdgeKind::picture;
  const std::string picture = short_verdict_words(a, some_profile());
  EXPECT_THAT(picture, HasSubstr("At least 56 of 100 cards"));
  EXPECT_THAT(picture, HasSubstr("the promise is for 95 of 100 cards."));
  a.request.back_edge = EdgeKind::white;
  EXPECT_THAT(short_verdict_words(a, some_profile()),
              HasSubstr("shows no sliver, enlarged or not"));
}

TEST(VerdictWords, MakeThePromiseConditionalWhereMisfeedsWereLeftOut) {
  Advice a = some_advice();
  a.with_misfeeds = Oversize{3.2, 3.2, 38, 38};
  a.holds_for.sheets = 9;
  a.holds_for.misfeeds = 1;
  a.holds_for.misfeed_share_high = 0.337;
  const std::string text = verdict_words(a, some_profile());
  EXPECT_THAT(
      text,
      HasSubstr("Misfeeds are not counted: 1 of 9 sheets was one, but up to 34 of 100 may be."));
  EXPECT_THAT(text, HasSubstr("With the misfeeds included, it would need 3.20 mm (38 px)"));
}

TEST(VerdictWords, GiveTheOtherFiguresOnlyWhereTheyMatter) {
  Advice a = some_advice();
  EXPECT_THAT(verdict_words(a, some_profile()), Not(HasSubstr("heavy tails")));
  a.heavy_tails = Oversize{1.3, 1.3, 16, 16};
  EXPECT_THAT(verdict_words(a, some_profile()),
              HasSubstr("(heavy tails), the same promise needs 1.30 mm (16 px)"));
}

TEST(AdviceTablesWords, NameCellsFromTheFrontAndTheFieldWithItsDirection) {
  Advice a = some_advice();
  a.cells = {{0, 1, {0, -88}, {0.0, 0.12}, 97.46}};
  a.curve = {{1.0, a.oversize, a.expected_good, true}};
  const std::string text = advice_tables_words(a);
  EXPECT_THAT(text, HasSubstr("row 1, column 2: 97.5 %, 0.12 mm (1.4 px) down, seen from "
                              "the back"));
  EXPECT_THAT(text, HasSubstr("0.88 mm (11 px): 8.84 (8.26 to 9.00) of 9"));
}

TEST(ProfileWords, TellWhatWasNotCountedAndWhy) {
  PrinterProfile p = some_profile();
  p.excluded = {{"may.json", 4, findings::misfed(Length{2.9}, Term{"right"})}};
  EXPECT_THAT(profile_words(p), HasSubstr("Not counted: sheet 4 of may.json (misfeed: 2.90 mm "
                                          "farther right than the others)."));
}

struct SomeCheck {
  Check check;
  PrinterProfile profile;
};

SomeCheck some_check(CheckVerdict verdict) {
  SomeCheck report;
  report.check.n_new = 5;
  report.check.charted = true;
  report.check.verdict = verdict;
  report.check.moved[0] = {0.61, 0.35, 0.87, 0.001};
  report.check.moved[1] = {-0.08, -0.23, 0.07, 0.4};
  return report;
}

std::string words_of(const SomeCheck& some) {
  return check_words(some.check, some.profile, std::nullopt);
}

TEST(CheckWords, FirstSayWhatToDoThenHowSureThenWhatMoved) {
  EXPECT_THAT(words_of(some_check(CheckVerdict::pool)), StartsWith("Keep using the profile"));
  EXPECT_THAT(words_of(some_check(CheckVerdict::start_again)), StartsWith("Start a new profile"));
  const std::string text = words_of(some_check(CheckVerdict::recentre));
  EXPECT_THAT(text, StartsWith("Move the backs again: the constant part has changed."));
  EXPECT_THAT(text, HasSubstr("\n5 new sheets were checked, at 5 % false alarms"));
  EXPECT_THAT(text, HasSubstr("moved 0.61 mm right (0.35 mm right to 0.87 mm right); 0.08 mm up "
                              "(0.23 mm up to 0.07 mm down)"));
}

TEST(CheckWords, InShortNameNoTestAndNoLimit) {
  SomeCheck some = some_check(CheckVerdict::recentre);
  some.check.mean_moved = true;
  some.check.feeds.push_back({7, 31.0, 12.0, true});
  const std::string text = short_check_words(some.check, some.profile, std::nullopt);
  EXPECT_THAT(text, StartsWith("Move the backs again"));
  EXPECT_THAT(text, HasSubstr("has moved 0.61 mm right and 0.08 mm up"));
  EXPECT_THAT(text, HasSubstr("Look at these sheets, which are farther off than the sheets of "
                              "this printer are: 7."));
  for (const char* word : {"T2", "%", "limit", "interval"}) {
    EXPECT_THAT(text, Not(HasSubstr(word)));
  }
  EXPECT_LE(std::count(text.begin(), text.end(), '\n'), 5);
}

TEST(CompareWords, NameTheSteadierSetUpFirst) {
  Comparison c;
  c.a = "rear";
  c.b = "front";
  c.n_a = c.n_b = 20;
  c.components[1].spread_known = c.components[1].spread_differs = true;
  c.components[1].spread_ratio = {2.5, 1.4, 4.4, 0.001};
  EXPECT_THAT(compare_words({c}, {}, {}),
              StartsWith("Print with rear, which varies less from feed to feed: rear and front "
                         "differ in the spread"));
}

TEST(CompareWords, SayWhenTheDifferenceShowsOnlyInAllTogether) {
  Comparison c;
  c.a = "rear";
  c.b = "front";
  c.differs = true;
  c.p_value = 0.0001;
  const std::string text = compare_words({c}, {}, {});
  EXPECT_THAT(text, HasSubstr("(p under 0.001 for the constant part"));
  EXPECT_THAT(text, HasSubstr("none of them shows it alone"));
}

TEST(CompareWords, SayInconclusiveInsteadOfTheSame) {
  Comparison c;
  c.a = "rear";
  c.b = "front";
  c.n_a = c.n_b = 6;
  c.components[0].difference = {0.05, -0.2, 0.3, 0.5};
  c.components[0].detectable_difference = 0.31;
  const std::vector<ChanceTest> chance = {{"rear", 0.5, 0.2, 0.86, 0.0001, false},
                                          {"front", 0.1, 0.2, 0.2, 0.4, true}};
  const std::string text = compare_words({c}, {}, chance);
  EXPECT_THAT(text, HasSubstr("6 and 6 sheets show no difference"));
  EXPECT_THAT(text, HasSubstr("Left-right: inconclusive. front lands anywhere from 0.20 mm farther "
                              "left to 0.30 mm farther right than rear; a difference of 0.31 mm "
                              "would have been found"));
  EXPECT_THAT(text,
              HasSubstr("Is the error of rear nothing but chance? No: 86 % of its mean square "
                        "is constant"));
  EXPECT_THAT(text, HasSubstr("Is the error of front nothing but chance? It may be"));
}

}  // namespace
}  // namespace versolay
