#include "pdf/text_block.h"

#include "core/whole_words.h"
#include "pdf/fonts.h"

namespace versolay {
namespace {

/// The last character goes as a whole: its continuation bytes are 10xxxxxx.
void drop_last_character(std::string& utf8) {
  while (utf8.size() > 1 && (static_cast<unsigned char>(utf8.back()) & 0xC0) == 0x80) {
    utf8.pop_back();
  }
  utf8.pop_back();
}

/// The beginning of a line that is too wide, one character at least, which it then lacks.
std::string taken_off(std::string& line, double width_mm, double size_mm, bool bold) {
  std::string head = line;
  std::string shorter = head;
  do {
    head = shorter;
    drop_last_character(shorter);
  } while (!shorter.empty() && text_width_mm(head, size_mm, bold) > width_mm);
  line.erase(0, head.size());
  return head;
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
    while (text_width_mm(line, size_mm, bold) > width_mm) {  // a word of its own, such as a path
      lines.push_back(taken_off(line, width_mm, size_mm, bold));
    }
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::string shortened(std::string_view utf8, double width_mm, double size_mm, bool bold) {
  std::string text(utf8);
  if (text_width_mm(text, size_mm, bold) <= width_mm) return text;
  const std::string ellipsis = "\u2026";
  while (!text.empty()) {
    drop_last_character(text);
    if (text_width_mm(text + ellipsis, size_mm, bold) <= width_mm) break;
  }
  return text + ellipsis;
}

}  // namespace versolay
