// Sheets of paper, and how a sheet is turned between its two passes.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "versolay/frames.h"

namespace versolay {

/// Width and height of the page as it is oriented. `name` is "a4", "a3", "letter", "tabloid", or
/// "WxHmm" for any other size.
struct Paper {
  std::string name;
  double width_mm = 0.0;
  double height_mm = 0.0;
  bool operator==(const Paper&) const = default;
};

/// Parses "a4", "A3", "letter", "tabloid" or "WxHmm" (e.g. "200x280mm").
/// Throws Error when the text is none of these or the size is outside 100..600 mm.
/// Source  A4, A3: ISO 216. Letter, Tabloid: 8.5x11 and 11x17 inch, ANSI/ASME Y14.1 (from memory).
Paper parse_paper(std::string_view text);

/// The named paper whose size is (width, height) within 0.01 mm, else a "WxHmm" paper.
Paper paper_of_size(double width_mm, double height_mm);

/// Which edge of the sheet is the hinge when it is turned over for its second side.
enum class Turn { long_edge, short_edge };
std::string_view to_string(Turn turn);            // "long-edge", "short-edge"
std::optional<Turn> turn_from(std::string_view);  // nullopt: neither

/// The axis of the page, as it is oriented, about which the sheet is turned.
/// A square page counts as portrait: its long edge is the vertical one.
enum class TurnAxis { vertical, horizontal };
TurnAxis turn_axis(Turn turn, const Paper& paper);

/// The mirror M of the turn: the recto place straight behind a verso place.
/// vertical axis: diag(-1, 1); horizontal axis: diag(1, -1). M is its own inverse.
Affine<RectoMm, VersoMm> recto_from_verso(TurnAxis axis);
Affine<VersoMm, RectoMm> verso_from_recto(TurnAxis axis);

}  // namespace versolay
