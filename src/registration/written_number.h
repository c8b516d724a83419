// Numbers as people write them in tables.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace versolay {

/// Without the blanks at both ends.
std::string trimmed(std::string_view text);
/// ASCII letters as small ones.
std::string lower_case(std::string text);

/// "13.2", "13,2", "+0.4 mm", "0.05 degrees", "0.42 mm left". Left, up and anticlockwise are
/// negative; right, down and clockwise positive; a number with such a word has no sign of its own.
/// @return nullopt when the cell is anything else.
std::optional<double> written_number(std::string_view cell);

}  // namespace versolay
