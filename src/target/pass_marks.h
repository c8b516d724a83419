// The marks of further passes of a sheet through the printer: rings and a separate tag, in places
// that all other passes leave free.
//
// A sheet that is fed K times a side gives K - 1 differences of a feed from the first, all in one
// scan. The marks of two passes stay separate as long as each pass is within 3 mm and 0.4 degrees
// of its nominal position. A pass that was fed rotated by 180 degrees, or printed on the other
// side, puts its tag where no other mark is: the places of the tags of the back are those of the
// front, rotated by 180 degrees.
#pragma once

#include <string>
#include <vector>

#include "target/target_geometry.h"

namespace versolay {

inline constexpr int kMostPasses = 6;
inline constexpr double kPassTagModuleMm = 0.8;  // 7 modules of black square

/// Name of a ring of a further pass: "pass-2-ring-7".
std::string pass_ring_id(int pass, std::size_t ring);

/// Marks of the passes 2 to `passes`; the first pass is the page of `geometry`. Rings of one pass
/// are spread over the page.
/// Throws Error when the paper has too little room.
std::vector<PassMarks> pass_marks(const TargetGeometry& geometry, int passes);

}  // namespace versolay
