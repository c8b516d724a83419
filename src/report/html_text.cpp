#include "report/html_text.h"

#include "core/utf8.h"
#include "core/whole_words.h"

namespace versolay {
namespace {

/// What neither HTML (WHATWG, "control" and "noncharacter" code points) nor XML 1.0 allows.
bool forbidden(std::uint32_t code) {
  const bool control =
      (code < 0x20 && code != '\t' && code != '\n') || (code >= 0x7F && code < 0xA0);
  return control || (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFE) == 0xFFFE;
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string safe;
  safe.reserve(text.size());
  while (!text.empty()) {
    const auto character = first_character(text);
    const std::string_view bytes = text.substr(0, character ? character->bytes : 1);
    text.remove_prefix(bytes.size());
    if (!character || forbidden(character->code_point)) {
      safe += "\xEF\xBF\xBD";
    } else if (bytes == "&") {
      safe += "&amp;";
    } else if (bytes == "<") {
      safe += "&lt;";
    } else if (bytes == ">") {
      safe += "&gt;";
    } else if (bytes == "\"") {
      safe += "&quot;";
    } else if (bytes == "'") {
      safe += "&#39;";
    } else {
      safe += bytes;
    }
  }
  return safe;
}

std::string html_prose(std::string_view text) {
  std::string html;
  const char* gap = "";
  for (const std::string_view word : whole_words(text)) {
    html += gap;
    gap = " ";
    const bool breakable = word.find(' ') != std::string_view::npos || word.starts_with("--");
    html += breakable ? "<span class=\"whole\">" + html_text(word) + "</span>" : html_text(word);
  }
  return html;
}

}  // namespace versolay
