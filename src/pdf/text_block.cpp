#include "pdf/text_block.h"

#include "core/whole_words.h"
#include "pdf/fonts.h"

namespace versolay {

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
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::string shortened(std::string_view utf8, double width_mm, double size_mm, bool bold) {
  std::string text(utf8);
  if (text_width_mm(text, size_mm, bold) <= width_mm) return text;
  const std::string ellipsis = "\u2026";
  while (!text.empty()) {
    // The last character goes as a whole: its continuation bytes are 10xxxxxx.
    while (text.size() > 1 && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80) {
      text.pop_back();
    }
    text.pop_back();
    if (text_width_mm(text + ellipsis, size_mm, bold) <= width_mm) break;
  }
  return text + ellipsis;
}

}  // namespace versolay
