#include <gmock/gmock.h>

#include "words/study_words.h"

namespace versolay {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

GaugeReport some_gauge() {
  GaugeReport gauge;
  gauge.sheets = 3;
  gauge.dof = 6;
  gauge.enough = true;
  gauge.components = {{"dx_mm", 0.006, 0.004, 0.013, true, true, 0.15, 0.3, 0.0016, 35},
                      {"dy_mm", 0.008, 0.005, 0.018, true, false, 0.0, 0.02, 1.0, 0},
                      {"rotation_mrad", 0.02, 0.01, 0.05, true, true, 0.7, 1.2, 0.001, 49}};
  return gauge;
}

TEST(StudyWords, SayNothingWhereNothingWasStudied) { EXPECT_THAT(study_words({}), IsEmpty()); }

TEST(StudyWords, TellTheGaugeInMillimetresAndShares) {
  Studies studies;
  studies.gauge = some_gauge();
  const std::string text = study_words(studies).at(0).text;
  EXPECT_THAT(text, AllOf(HasSubstr("3 sheets were scanned several times"),
                          HasSubstr("0.006 mm left-right, 0.008 mm up-down"),
                          HasSubstr("reading them accounts for 0.16 % (35 sizes"),
                          HasSubstr("spread up-down cannot be distinguished from the "
                                    "measurement error; it is below 0.020 mm"),
                          Not(HasSubstr("rough estimate"))));
  studies.gauge->dof = 2;
  studies.gauge->enough = false;
  EXPECT_THAT(study_words(studies).at(0).text, HasSubstr("six repeats are needed"));
}

/// What is said of the other turn from this many sheets.
std::string other_turn_from(int sheets) {
  Studies studies;
  OtherTurn other;
  other.turn = Turn::short_edge;
  other.sheets = sheets;
  other.mean = {-0.31, 0.52, 0.9};
  other.half_width = {0.06, 0.08, 0.1};
  studies.other_turn = other;
  return study_words(studies).at(0).text;
}

TEST(StudyWords, TellTheOtherTurnWithItsDirections) {
  EXPECT_THAT(other_turn_from(6),
              AllOf(HasSubstr("turned on the short edge instead"),
                    HasSubstr("0.31 mm too far left and 0.52 mm too far down, seen from the back"),
                    HasSubstr("+-0.06 mm and +-0.08 mm with 95 % confidence")));
}

// One sheet knows nothing of the spread: an interval from its reading alone would promise too much.
TEST(StudyWords, StateNoIntervalOfTheOtherTurnFromOneSheet) {
  EXPECT_THAT(other_turn_from(1),
              AllOf(HasSubstr("0.31 mm too far left and 0.52 mm too far down"),
                    HasSubstr("read several before you choose"), Not(HasSubstr("+-"))));
}

TEST(StudyWords, TellABiasFromNone) {
  Studies studies;
  studies.fed_round = FedRoundCheck{5, 5, {0.03, -0.01}, {0.01, 0.02}, 0.001, true};
  EXPECT_THAT(study_words(studies).at(0).text,
              HasSubstr("There is a measuring bias: 0.030 mm to the right (+-0.010 mm) and "
                        "0.010 mm up (+-0.020 mm)"));
  EXPECT_EQ(study_words(studies).at(0).p_value, 0.001);
  studies.fed_round->real = false;
  EXPECT_THAT(study_words(studies).at(0).text, HasSubstr("No measuring bias is detected"));
}

}  // namespace
}  // namespace versolay
