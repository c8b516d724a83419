#include "pdf/text_block.h"

#include "pdf/fonts.h"

namespace versolay {

std::vector<std::string> wrapped(std::string_view utf8, double width_mm, double size_mm,
                                 bool bold) {
  std::vector<std::string> lines;
  std::string line;
  for (std::size_t at = 0; at < utf8.size();) {
    const std::size_t start = utf8.find_first_not_of(' ', at);
    if (start == std::string_view::npos) break;
    const std::size_t end = std::min(utf8.find(' ', start), utf8.size());
    const std::string word(utf8.substr(start, end - start));
    const std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && text_width_mm(longer, size_mm, bold) > width_mm) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    at = end;
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
