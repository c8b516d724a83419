// UTF-8, character by character.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace versolay {

struct Utf8Character {
  std::uint32_t code_point = 0;
  std::size_t bytes = 0;
};

/// The character at the start of `text`; nullopt for anything that RFC 3629 forbids.
/// Precondition: `text` is not empty.
std::optional<Utf8Character> first_character(std::string_view text);

/// `text` with every byte that is not part of a character replaced by U+FFFD: for file names, which
/// may contain any bytes.
std::string valid_utf8(std::string_view text);

/// `text` as it may be shown on a terminal: characters that would move the cursor, change colours
/// or turn the direction of what follows (controls but line feed and tab, Unicode's marks of
/// direction, its line and paragraph separators) are written as "\\x1B" or "\\u202E", bytes that
/// are not part of a character as "\\xFF". File names and labels may contain any of them.
std::string shown(std::string_view text);

}  // namespace versolay
