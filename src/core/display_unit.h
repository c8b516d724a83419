// The unit in which distances are said to people. Files, and what programs read, keep millimetres.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace versolay {

enum class Units { mm, px, inches };

/// "mm", "px" or "in".
std::optional<Units> units_from(std::string_view text);

/// From now on distances are said in these units, pixels those of `ppi`. To be set once, before
/// anything is said, as the language is; without it they are millimetres.
void say_distances_in(Units units, double ppi);

/// What distances are said in.
struct DisplayUnit {
  Units units = Units::mm;
  const char* name = "mm";
  double per_mm = 1.0;
  /// As fine as so many decimals of a millimetre, or a little finer.
  int decimals(int of_mm) const;
};
const DisplayUnit& display_unit();

}  // namespace versolay
