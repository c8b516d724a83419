// Two set-ups that differ in the turn axis: does the one land where the other predicted?
#pragma once

#include <array>
#include <optional>
#include <string>

#include "profile/comparison.h"

namespace versolay {

/// The constant part of `of` beside what the sheets of `by` foretold for its way of turning, from
/// where both their prints lie on the paper (OtherTurn).
struct ForetoldTurn {
  std::string by;
  std::string of;
  std::array<double, 3> foretold{};           // dx, dy mm, rotation mrad; signs as always
  std::array<stats::Interval, 3> difference;  // of what came from what was foretold
  double p_value = 1.0;                       // of "it came as foretold", Bonferroni
  bool agrees = true;                         // p >= 0.05
};

/// nullopt: one way of turning, or neither set-up has sheets whose edges were read on both sides.
std::optional<ForetoldTurn> foretold_turn(const SetUp& a, const SetUp& b);

}  // namespace versolay
