#include "pdf/text_block.h"

#include "core/whole_words.h"
#include "pdf/fonts.h"

namespace versolay {
namespace {

std::size_t bytes_of_first_character(std::string_view utf8) {
  std::size_t bytes = 1;
  while (bytes < utf8.size() && (static_cast<unsigned char>(utf8[bytes]) & 0xC0) == 0x80) ++bytes;
  return bytes;
}

/// The beginning that fits, one character at least. Characters are as wide alone as together.
std::string_view fitting(std::string_view utf8, double width_mm, double size_mm, bool bold) {
  std::size_t bytes = 0;
  double used_mm = 0.0;
  while (bytes < utf8.size()) {
    const std::size_t next = bytes_of_first_character(utf8.substr(bytes));
    used_mm += text_width_mm(std::string(utf8.substr(bytes, next)), size_mm, bold);
    if (bytes > 0 && used_mm > width_mm) break;
    bytes += next;
  }
  return utf8.substr(0, bytes);
}

}  // namespace

std::vector<std::string> wrapped(std::string_view utf8, double width_mm, double size_mm,
                                 bool bold) {
  std::vector<std::string> lines;
  std::string line;
  for (const std::string_view whole : whole_words(utf8)) {
    if (whole.empty()) continue;
    const std::string word(whole);
    const std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && text_width_mm(longer, size_mm, bold) > width_mm) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    if (text_width_mm(line, size_mm, bold) <= width_mm) continue;
    std::string_view rest = line;  // a word of its own, such as a path
    for (;;) {
      const std::string_view head = fitting(rest, width_mm, size_mm, bold);
      rest.remove_prefix(head.size());
      if (rest.empty()) {
        line = std::string(head);
        break;
      }
      lines.emplace_back(head);
    }
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::string shortened(std::string_view utf8, double width_mm, double size_mm, bool bold) {
  std::string text(utf8);
  if (text_width_mm(text, size_mm, bold) <= width_mm) return text;
  const std::string ellipsis = "\u2026";
  const double room_mm = width_mm - text_width_mm(ellipsis, size_mm, bold);
  const std::string_view head = fitting(utf8, room_mm, size_mm, bold);
  const bool any = text_width_mm(std::string(head), size_mm, bold) <= room_mm;
  return (any ? std::string(head) : "") + ellipsis;
}

}  // namespace versolay
