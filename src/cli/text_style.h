// How text meets a terminal: its width, and bold where that is wanted.
#pragma once

#include <string>
#include <string_view>

namespace versolay::cli {

/// Columns of the terminal behind a file descriptor; 0 when it is a file or a pipe. COLUMNS, when
/// set, is believed first.
int terminal_columns(int file_descriptor);

/// Bold and colours only on a terminal, and never when NO_COLOR is set (no-color.org) or TERM is
/// "dumb".
bool style_is_wanted(int file_descriptor);

/// Lines longer than `columns` are broken at spaces, but not between a number and its unit. What
/// follows is indented like its first line, or like the words behind a wide gap in it ("paper a4").
/// columns 0: nothing is broken.
std::string wrapped_for(std::string_view text, int columns);

/// Characters, not bytes: continuation bytes of UTF-8 take no room.
std::size_t width_of(std::string_view text);

std::string bold(const std::string& text, bool wanted);

}  // namespace versolay::cli
