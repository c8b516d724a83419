// "Did you mean ...?" for an unknown word.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace versolay::cli {

/// Insertions, deletions, replacements and swaps of neighbours that lead from one word to the
/// other (optimal string alignment distance; Damerau, Comm. ACM 7(3), 1964).
int edits_between(std::string_view a, std::string_view b);

/// The nearest known word, if it is near: at most one edit for every three letters, and not the
/// word itself.
std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& known);

}  // namespace versolay::cli
