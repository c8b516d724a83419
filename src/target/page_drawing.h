// What a page of the target looks like: marks, hole places, check bars, words.
#pragma once

#include <string>

#include "core/drawing.h"
#include "versolay/target.h"

namespace versolay {

/// One side of one sheet. Nothing is drawn inside a clear disc or within 5 mm of an edge.
/// @param label  the user's own words, printed under the sheet number; may be empty.
Drawing target_page(const TargetGeometry& geometry, const PageIdentity& identity,
                    const std::string& label);

}  // namespace versolay
