// Lines of text that stay inside a column.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/drawing.h"

namespace versolay {

/// The words of `utf8`, broken into lines of at most `width_mm`. A wider word (a path, a
/// name) is broken wherever the line is full.
std::vector<std::string> wrapped(std::string_view utf8, double width_mm, double size_mm,
                                 bool bold = false);

/// `utf8`, shortened with an ellipsis where it would be wider than `width_mm`.
std::string shortened(std::string_view utf8, double width_mm, double size_mm, bool bold = false);

}  // namespace versolay
