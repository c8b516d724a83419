// The two fonts of everything that is printed, and the width of a line set in them.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace versolay {

/// DejaVu Sans or DejaVu Sans Bold. Looked for in the folder named by the environment variable
/// VERSOLAY_FONT_DIR when it is set, else where Linux distributions install it.
/// Throws Error that says which package to install.
std::filesystem::path font_file(bool bold);

/// Text that the fonts and libharu can set: the same UTF-8, with characters beyond the Basic
/// Multilingual Plane and control characters replaced by U+FFFD.
/// Throws Error when `text` is not UTF-8.
std::string printable_text(std::string_view text);

/// Advance width of one line, in mm, for an em square of `size_mm`.
/// Throws Error as font_file and printable_text do.
double text_width_mm(std::string_view utf8, double size_mm, bool bold = false);

}  // namespace versolay
