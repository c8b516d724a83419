// Any text, safe inside HTML and SVG.
#pragma once

#include <string>
#include <string_view>

namespace versolay {

/// Escaped for element content and for attributes in quotes: & < > " '. Bytes that are not UTF-8,
/// and characters that HTML or XML forbid, become U+FFFD.
std::string html_text(std::string_view text);

/// The same for prose: a number stays on one line with its unit, and an option with its dashes.
/// Only for element content.
std::string html_prose(std::string_view text);

}  // namespace versolay
