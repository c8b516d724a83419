// Two ways of setting up a printer (feed path, turn, paper, guides): do they differ?
#pragma once

#include <array>
#include <string>
#include <vector>

#include "stats/two_sample.h"
#include "versolay/printer_profile.h"
#include "versolay/result.h"

namespace versolay {

/// One component of a comparison of B with A.
struct ComponentComparison {
  stats::Interval difference;    // of the constant parts, B - A, mm or mrad
  bool differs = false;          // at 5 %, allowing for three components
  stats::Interval spread_ratio;  // sd of B over that of A; 1 and 1 where it cannot be estimated
  bool spread_known = false;     // at least 4 feeds each, not all equal
  bool spread_differs = false;
  double detectable_difference = 0.0;  // what so many feeds find four times out of five
};

struct Comparison {
  std::string a;  // names of the set-ups
  std::string b;
  bool paired = false;  // sheet by sheet
  int n_a = 0;
  int n_b = 0;
  std::array<ComponentComparison, 3> components;  // dx, dy, rotation
  double p_value = 1.0;  // of "the same constant part": T2, or Bonferroni where T2 is impossible
  double t2 = 0.0;
  double nu = 0.0;
  bool differs = false;
  double detectable_spread_ratio = 0.0;
  bool one_fed_round = false;  // half of the difference is not caused by the printer
};

/// "The error is nothing but chance", put to the test over one set-up.
struct ChanceTest {
  std::string name;
  double constant_mm = 0.0;     // root mean square over the page's corners of the constant part
  double chance_mm = 0.0;       // ... and of the feed-to-feed part
  double constant_share = 0.0;  // of the mean square error, 0..1
  double p_value = 1.0;
  bool only_chance_possible = true;  // p >= 0.05
};

struct SetUp {
  std::string name;
  PrinterProfile profile;
};

/// B against A. paired: both were fed in pairs (first sheet with first sheet, ...): what a pair
/// shares (warm-up, humidity) drops out.
/// Refuses: profiles without their feeds, fewer than 2 feeds in one; paired with unequal numbers.
/// Where signs would mean different things (paper or turn differ) only the size of the constant
/// part could be compared; the turn may differ, the paper must not.
Result<Comparison> compare_set_ups(const SetUp& a, const SetUp& b, bool paired);

/// All of its sheets were fed rotated by 180 degrees, on both sides. (They are still described in
/// the frame of the printer.)
bool is_fed_round(const SetUp& set_up);

ChanceTest test_chance(const SetUp& set_up);

}  // namespace versolay
