// Settings common to the tests of this room.
#pragma once

namespace versolay {

constexpr double kLevel = 0.05;  // of a test; several of a family share it
/// Of the questions about the scatter together (normal, drifting, two places, lopsided); of each.
constexpr double kScatterLevel = 0.05;
constexpr double kOneScatterLevel = kScatterLevel / 4;
constexpr double kPower = 0.8;       // "found four times out of five"
constexpr int kComponents = 3;       // dx, dy, rotation
constexpr int kFewestForSpread = 4;  // feeds on either side, to compare spreads

}  // namespace versolay
