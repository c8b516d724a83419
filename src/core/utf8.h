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

/// `text` with every byte that is no part of a character replaced by U+FFFD: for names of files,
/// which may be any bytes.
std::string valid_utf8(std::string_view text);

}  // namespace versolay
