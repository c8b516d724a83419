// Where a line of prose may be broken.
#pragma once

#include <string_view>
#include <vector>

namespace versolay {

/// The text between its spaces, a number and its unit as one: "by", "0.44 mm", "(5.2 px". Two
/// spaces leave an empty word.
std::vector<std::string_view> whole_words(std::string_view text);

}  // namespace versolay
