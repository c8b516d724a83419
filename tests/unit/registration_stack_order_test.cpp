#include <gmock/gmock.h>

#include "registration/stack_order.h"

namespace versolay {
namespace {

using ::testing::IsEmpty;

SideReading scan(const std::string& name, int sheet, Side side, bool of_a_job = true) {
  SideReading reading;
  reading.scan_name = name;
  reading.identity.run = "K7QX";
  reading.identity.sheet = sheet;
  reading.identity.side = side;
  if (of_a_job) reading.correction = Registration{};
  return reading;
}

/// scan1.png: front of the first pair, scan2.png: its back, ...
std::vector<SideReading> stack(const std::vector<std::pair<int, int>>& pairs) {
  std::vector<SideReading> scans;
  int number = 0;
  for (const auto& [front, back] : pairs) {
    scans.push_back(scan("scan" + std::to_string(++number) + ".png", front, Side::recto));
    scans.push_back(scan("scan" + std::to_string(++number) + ".png", back, Side::verso));
  }
  return scans;
}

TEST(StackOrder, ABackBehindAnotherFrontIsFound) {
  std::vector<SideReading> scans = stack({{1, 1}, {2, 3}, {3, 2}, {4, 4}, {5, 5}, {6, 6}});
  for (const bool shuffled : {false, true}) {
    if (shuffled) std::reverse(scans.begin(), scans.end());  // names count, not places in a list
    const auto misplaced = misplaced_backs(scans);
    ASSERT_EQ(misplaced.size(), 2u);
    EXPECT_EQ(misplaced[0].sheet, 2);
    EXPECT_EQ(misplaced[0].back, 3);
    EXPECT_EQ(misplaced[1].sheet, 3);
  }
}

TEST(StackOrder, AStackInOrderIsNot) {
  EXPECT_THAT(misplaced_backs(stack({{1, 1}, {2, 2}, {3, 3}})), IsEmpty());
  EXPECT_THAT(misplaced_backs({}), IsEmpty());
}

TEST(StackOrder, ScansInAnotherOrderTellNothing) {
  // All fronts, then all backs.
  std::vector<SideReading> scans;
  for (int i = 1; i <= 4; ++i) scans.push_back(scan("a" + std::to_string(i), i, Side::recto));
  for (int i = 1; i <= 4; ++i) scans.push_back(scan("b" + std::to_string(i), i, Side::verso));
  EXPECT_THAT(misplaced_backs(scans), IsEmpty());
  // Alternating by chance: most pairs are of two sheets.
  EXPECT_THAT(misplaced_backs(stack({{1, 4}, {2, 1}, {3, 3}, {4, 2}})), IsEmpty());
}

TEST(StackOrder, TargetsHaveHolesForThat) {
  std::vector<SideReading> scans = stack({{1, 1}, {2, 3}, {3, 2}, {4, 4}, {5, 5}});
  for (SideReading& s : scans) s.correction.reset();
  EXPECT_THAT(misplaced_backs(scans), IsEmpty());
}

}  // namespace
}  // namespace versolay
