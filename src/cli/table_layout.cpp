#include "cli/table_layout.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/text_style.h"

namespace versolay::cli {
namespace {

constexpr std::size_t kGap = 2;
constexpr std::size_t kNarrowestWords = 16;  // narrower, and a wrapped column is no help

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

std::size_t widest_line(const std::string& text) {
  std::size_t width = 0;
  for (const std::string& line : lines_of(text)) width = std::max(width, width_of(line));
  return width;
}

std::vector<std::size_t> column_widths(const TextTable& table) {
  std::vector<std::size_t> widths;
  for (const std::string& title : table.head) widths.push_back(widest_line(title));
  for (const auto& row : table.rows) {
    for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], width_of(row[c]));
  }
  return widths;
}

/// One row of cells, each of one line or several.
void append_row(const TextTable& table, const std::vector<std::string>& cells,
                const std::vector<std::size_t>& widths, std::string& out) {
  std::size_t height = 0;
  for (const std::string& cell : cells) height = std::max(height, lines_of(cell).size());
  for (std::size_t at = 0; at < height; ++at) {
    std::string line;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const std::vector<std::string> lines = lines_of(cells[c]);
      const std::string text = at < lines.size() ? lines[at] : "";
      const std::string room(widths[c] - std::min(widths[c], width_of(text)), ' ');
      const bool to_the_left = table.ends_in_words && c + 1 == table.head.size();
      if (c > 0) line += std::string(kGap, ' ');
      line += to_the_left ? text + room : room + text;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += (out.empty() ? "" : "\n") + line;
  }
}

std::string in_columns(const TextTable& table, const std::vector<std::size_t>& widths) {
  std::string out;
  append_row(table, table.head, widths, out);
  for (std::vector<std::string> row : table.rows) {
    if (table.ends_in_words && row.size() == table.head.size()) {
      row.back() = wrapped_for(row.back(), static_cast<int>(widths.back()));
    }
    append_row(table, row, widths, out);
  }
  return out;
}

/// "right(+) left(-) mm" of a title of several lines.
std::string in_one_line(const std::string& title) {
  return fmt::format("{}", fmt::join(lines_of(title), " "));
}

std::string in_blocks(const TextTable& table, int columns) {
  std::string out;
  for (const auto& row : table.rows) {
    out += fmt::format("{}{} {}", out.empty() ? "" : "\n", table.head[0], row[0]);
    for (std::size_t c = 1; c < row.size(); ++c) {
      out += "\n" + wrapped_for("  " + in_one_line(table.head[c]) + ": " + row[c], columns);
    }
  }
  return out;
}

}  // namespace

std::string table_lines(const TextTable& table, int columns) {
  std::vector<std::size_t> widths = column_widths(table);
  if (columns == 0) return in_columns(table, widths);
  const auto room = static_cast<std::size_t>(columns);
  std::size_t others = kGap * (widths.size() - 1);
  for (std::size_t c = 0; c + 1 < widths.size(); ++c) others += widths[c];
  if (others + widths.back() <= room) return in_columns(table, widths);
  const std::size_t least = std::max(kNarrowestWords, widest_line(table.head.back()));
  if (!table.ends_in_words || others + least > room) return in_blocks(table, columns);
  widths.back() = room - others;
  return in_columns(table, widths);
}

PrintedText::PrintedText(std::string text) { parts_.emplace_back(std::move(text)); }

PrintedText& PrintedText::operator+=(const std::string& text) {
  parts_.emplace_back(text);
  return *this;
}

PrintedText& PrintedText::operator+=(TextTable table) {
  parts_.emplace_back(std::move(table));
  return *this;
}

std::string PrintedText::laid_out(int columns) const {
  std::string out;
  std::string prose;  // parts of one line may come one after the other
  for (const auto& part : parts_) {
    if (const auto* text = std::get_if<std::string>(&part)) {
      prose += *text;
    } else {
      out += wrapped_for(prose, columns) + table_lines(std::get<TextTable>(part), columns);
      prose.clear();
    }
  }
  return out + wrapped_for(prose, columns);
}

}  // namespace versolay::cli
