#include <gtest/gtest.h>

#include <vector>

#include "cli/terminal.h"

namespace versolay::cli {
namespace {

TEST(ProgressLine, SaysHowFarAWorkIsAndHowLongItStillTakes) {
  // A quarter took 30 s, so the other three take 90 s: that is said in minutes.
  EXPECT_EQ(progress_words({5, 20, Term{"reading scans"}, 0.25}, 30.0),
            "reading scans: 5 of 20, about 2 minutes left");
  EXPECT_EQ(progress_words({15, 20, Term{"reading scans"}, 0.75}, 30.0),
            "reading scans: 15 of 20, about 10 s left");
}

TEST(ProgressLine, OfAPartItSaysHowFarEverythingIs) {
  // Half of the scans, a tenth of everything, in 20 s: nine tenths take 180 s.
  EXPECT_EQ(progress_words({5, 10, Term{"printing and scanning"}, 0.1}, 20.0),
            "printing and scanning: 5 of 10, 10 % in total, about 3 minutes left");
}

TEST(ProgressLine, DoesNotGuessFromNothingAndHasNothingLeftAtTheEnd) {
  EXPECT_EQ(progress_words({0, 20, Term{"reading scans"}, 0.0}, 5.0), "reading scans: 0 of 20");
  EXPECT_EQ(progress_words({20, 20, Term{"reading scans"}, 1.0}, 5.0), "reading scans: 20 of 20");
}

TEST(ProgressLine, RoundsTheTimeUp) {
  EXPECT_EQ(time_left_words(0.3), "about 1 s left");
  EXPECT_EQ(time_left_words(41), "about 50 s left");
  EXPECT_EQ(time_left_words(91), "about 2 minutes left");
  EXPECT_EQ(time_left_words(601), "about 11 minutes left");
}

TEST(ProgressOfAPart, IsAShareOfTheWhole) {
  std::vector<double> seen;
  const Progress whole = [&](const WorkDone& work) { seen.push_back(work.whole); };
  tell(part_of(whole, 0.2, 0.6), 1, 4, Term{"reading scans"});
  tell(part_of(part_of(whole, 0.5, 1.0), 0.0, 0.5), 4, 4, Term{"reading scans"});
  ASSERT_EQ(seen.size(), 2u);
  EXPECT_DOUBLE_EQ(seen[0], 0.3);   // a quarter of the 0.4 between 0.2 and 0.6
  EXPECT_DOUBLE_EQ(seen[1], 0.75);  // the end of the first half of the second half
  EXPECT_FALSE(part_of({}, 0, 1));  // where nobody listens, nobody listens to a part
}

}  // namespace
}  // namespace versolay::cli
