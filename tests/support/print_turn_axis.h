// How GoogleTest prints the axis of a turn, as a parameter of a test.
#pragma once

#include <ostream>

#include "versolay/paper.h"

namespace versolay {

inline void PrintTo(TurnAxis axis, std::ostream* out) {
  *out << (axis == TurnAxis::vertical ? "vertical axis" : "horizontal axis");
}

}  // namespace versolay
