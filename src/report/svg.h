// A figure as an inline SVG element.
#pragma once

#include <string>

#include "report/document.h"

namespace versolay {

/// One <svg role="img">, millimetres as user units. Colours come from the style sheet of the page
/// by the classes role-frame, role-before, role-after, role-mark and paper; without one all is
/// black. A figure with a scale carries it as data-x0, data-per-x, data-y0 and data-per-y.
std::string svg_of(const Figure& figure);

}  // namespace versolay
