#include "cli/text_style.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <cstdlib>

#include "core/numbers.h"
#include "core/whole_words.h"

namespace versolay::cli {
namespace {

constexpr int kNarrowest = 20;

/// What stays where it is on the first line: the indent, or a name with a wide gap behind it.
std::size_t lead_of(std::string_view line) {
  const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
  const std::size_t gap = line.find("  ", indent);
  // A gap that nothing follows is no gap.
  return gap == std::string_view::npos ? indent
                                       : std::min(line.find_first_not_of(' ', gap), line.size());
}

void append_wrapped(std::string_view line, std::size_t columns, std::string& out) {
  const std::size_t lead = lead_of(line);
  const std::size_t indent =
      2 * lead <= columns ? lead : std::min(line.find_first_not_of(' '), line.size());
  out += line.substr(0, lead);
  std::size_t used = lead;
  bool first = true;
  for (const std::string_view word : whole_words(line.substr(lead))) {
    const bool fits = used + (first ? 0 : 1) + width_of(word) <= columns;
    if (!fits && !(first && used <= indent)) {
      out += "\n" + std::string(indent, ' ');
      used = indent;
    } else if (!first) {
      out += ' ';
      ++used;
    }
    out += word;
    used += width_of(word);
    first = false;
  }
}

}  // namespace

std::size_t width_of(std::string_view text) {
  std::size_t width = 0;
  for (const char c : text) width += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1U : 0U;
  return width;
}

int terminal_columns(int file_descriptor) {
  if (isatty(file_descriptor) == 0) return 0;
  if (const char* named = std::getenv("COLUMNS")) {
    const auto columns = parse_integer(named);
    if (columns && *columns >= kNarrowest) return *columns;
  }
  winsize size{};
  if (ioctl(file_descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col >= kNarrowest) {
    return size.ws_col;
  }
  return 0;
}

bool style_is_wanted(int file_descriptor) {
  const char* no_color = std::getenv("NO_COLOR");
  const char* terminal = std::getenv("TERM");
  return isatty(file_descriptor) != 0 && (no_color == nullptr || *no_color == '\0') &&
         (terminal == nullptr || std::string_view(terminal) != "dumb");
}

std::string wrapped_for(std::string_view text, int columns) {
  if (columns < kNarrowest) return std::string(text);
  const auto width = static_cast<std::size_t>(columns);
  std::string out;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    const std::string_view line = text.substr(from, end - from);
    if (width_of(line) <= width) {
      out += line;
    } else {
      append_wrapped(line, width, out);
    }
    if (end < text.size()) out += '\n';
    from = end + 1;
  }
  return out;
}

std::string bold(const std::string& text, bool wanted) {
  return wanted ? "\033[1m" + text + "\033[0m" : text;
}

}  // namespace versolay::cli
