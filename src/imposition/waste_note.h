// A line of words in a free part of the waste.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/drawing.h"

namespace versolay {

/// Position of the words on the recto; the mirrored box on the verso is free as well.
struct WasteNote {
  std::string words;
  PageRect box;
  double size_mm = 0.0;
  bool downwards = false;  // along a vertical edge, read downwards
};

/// @param area   what guides and words may use.
/// @param inked  the cards of both sides with all that reaches beyond them.
/// @param taken  by guides, other words and marks with the white that they need, both sides as seen
///               from the recto.
/// @return nullopt where nothing large enough to be read fits with half a millimetre around it.
std::optional<WasteNote> waste_note(const std::string& words, const PageRect& area,
                                    const PageRect& inked, const std::vector<PageRect>& taken);

/// The words in the box of the note, or in that at the mirrored place.
Text text_of(const WasteNote& note, const PageRect& box);

}  // namespace versolay
