#include "core/utf8.h"

#include <fmt/format.h>

namespace versolay {
namespace {

/// Source  ECMA-48 (controls C0 and C1); Unicode Standard Annex 9, 2 (directional formatting).
bool moves_text(std::uint32_t code_point) {
  if (code_point < 0x20) return code_point != '\n' && code_point != '\t';
  return (code_point >= 0x7F && code_point < 0xA0) || code_point == 0x061C ||
         code_point == 0x200E || code_point == 0x200F ||
         (code_point >= 0x2028 && code_point <= 0x202E) ||
         (code_point >= 0x2066 && code_point <= 0x2069) || code_point == 0xFEFF;
}

}  // namespace

std::optional<Utf8Character> first_character(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return Utf8Character{lead, 1};
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return std::nullopt;
  std::uint32_t code = lead & (0xFFu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return std::nullopt;
    code = code << 6 | (byte(i) & 0x3Fu);
  }
  const std::uint32_t smallest = length == 2 ? 0x80 : length == 3 ? 0x800 : 0x10000;
  if (code < smallest || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return std::nullopt;
  return Utf8Character{code, length};
}

std::string valid_utf8(std::string_view text) {
  std::string valid;
  while (!text.empty()) {
    const auto character = first_character(text);
    valid += character ? text.substr(0, character->bytes) : std::string_view("\xEF\xBF\xBD");
    text.remove_prefix(character ? character->bytes : 1);
  }
  return valid;
}

std::string shown(std::string_view text) {
  std::string safe;
  safe.reserve(text.size());
  while (!text.empty()) {
    const auto character = first_character(text);
    const std::size_t bytes = character ? character->bytes : 1;
    if (!character) {
      safe += fmt::format("\\x{:02X}", static_cast<unsigned char>(text[0]));
    } else if (moves_text(character->code_point)) {
      safe += character->code_point < 0x100 ? fmt::format("\\x{:02X}", character->code_point)
                                            : fmt::format("\\u{:04X}", character->code_point);
    } else {
      safe += text.substr(0, bytes);
    }
    text.remove_prefix(bytes);
  }
  return safe;
}

}  // namespace versolay
