// The line in the waste of a page that says what the page is.
#pragma once

#include <optional>
#include <string>

#include "core/drawing.h"

namespace versolay {

inline constexpr double kSlugStripMm = 3.0;

/// Where a slug goes: a strip along one edge of the printable area.
enum class SlugSide { top, right, bottom, left };

struct SlugPlace {
  SlugSide side = SlugSide::bottom;
  PageRect strip;
};

/// The edge with the most waste between the inked rectangle and the printable area; nullopt when no
/// edge has room for the strip and `guides_mm` beside it.
std::optional<SlugPlace> slug_place(const PageRect& inked, const PageRect& area, double guides_mm);

/// The printable area without the strip.
PageRect without_strip(const PageRect& area, const SlugPlace& place);

/// One line in the strip, from its left (or upper) end, made smaller or cut off to fit into
/// `length_mm`.
Text slug_text(const SlugPlace& place, const std::string& utf8, double length_mm);

}  // namespace versolay
