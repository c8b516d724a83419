// Text in the fonts used for all printed pages, and the width of a line.
#pragma once

#include <string>
#include <string_view>

namespace versolay {

/// Text that the fonts and libharu can set: the same UTF-8, with characters beyond the Basic
/// Multilingual Plane and control characters replaced by U+FFFD.
/// Throws Error when `text` is not UTF-8.
std::string printable_text(std::string_view text);

/// Advance width of one line, in mm, for an em square of `size_mm`.
/// Throws Error as font_file (core/font_file.h) and printable_text do.
double text_width_mm(std::string_view utf8, double size_mm, bool bold = false);

}  // namespace versolay
