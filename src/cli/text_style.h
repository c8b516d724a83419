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

/// Lines of prose longer than `columns` are broken at spaces; what follows is indented like its
/// first line. Lines with two spaces in a row after their first word are rows of a table and stay
/// whole. columns 0: nothing is broken.
std::string wrapped_for(std::string_view text, int columns);

std::string bold(const std::string& text, bool wanted);

}  // namespace versolay::cli
