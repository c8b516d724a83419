// Tables as spreadsheet programs write them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace versolay {

struct CsvRow {
  int line = 0;       // 1 for the first of the file, as a spreadsheet counts its rows
  int text_line = 0;  // where it begins, as an editor counts lines: cells may hold line ends
  std::vector<std::string> cells{};  // without the blanks around them
};

/// Is this UTF-8 without a NUL?
bool is_text(std::string_view text);

/// Rows that are not empty. Cells are separated by commas, semicolons or tabs: by the one of the
/// three that gives the most rows the same number of cells. Quotes, line ends (LF, CRLF, CR) and a
/// byte order mark are accepted as spreadsheet programs write them (RFC 4180); but a line that
/// begins with # is a remark, in which a quotation mark may be unpaired (it is returned as an
/// apostrophe). Throws Error for text that is not UTF-8 or contains a NUL, and, with its line, for
/// an unterminated quotation mark.
std::vector<CsvRow> parse_csv(std::string_view text, const std::string& file);

/// One line of a table, without its end; cells are quoted where they must be. A text that begins
/// with = + - or @ gets an apostrophe before it: a spreadsheet program would take it for a formula
/// and run it. Numbers stay as they are.
std::string csv_line(const std::vector<std::string>& cells, char separator);

}  // namespace versolay
