#include "core/utf8.h"

namespace versolay {

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

}  // namespace versolay
