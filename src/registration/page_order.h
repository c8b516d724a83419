// Pages on the wrong sheets: paper fed in the wrong order, detected by the holes.
#pragma once

#include <optional>
#include <vector>

#include "registration/sheet_registration.h"

namespace versolay {

/// Refuses (same_side_twice) when scans that show the same page are the two sides of one sheet: the
/// page was printed on both of them.
std::optional<Refusal> check_same_side_twice(const std::vector<SideReading>& scans);

/// A sheet that was refused, and why.
struct RefusedSheet {
  SheetScans scans;
  Refusal refusal;
};

/// Replaces the refusal (by wrong_back) of sheets whose front shares its paper with the back of
/// another: the backs were fed in a different order from the fronts. Sheets without holes are
/// indistinguishable and left as they are.
void name_wrong_backs(std::vector<RefusedSheet>& refused);

}  // namespace versolay
