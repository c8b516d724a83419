#include "core/csv.h"

#include <csv.h>

#include <algorithm>
#include <exception>
#include <map>
#include <utility>

#include "core/findings.h"
#include "core/numbers.h"
#include "core/utf8.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// What the parser's callbacks record. They are called from C and must not throw.
struct Collector {
  std::vector<CsvRow> rows;
  CsvRow row{1, 1};
  std::exception_ptr failed;
};

void on_cell(void* text, std::size_t size, void* data) {
  auto& collector = *static_cast<Collector*>(data);
  try {
    collector.row.cells.emplace_back(static_cast<const char*>(text), size);
  } catch (...) {
    collector.failed = std::current_exception();
  }
}

void on_row(int, void* data) {
  auto& collector = *static_cast<Collector*>(data);
  try {
    const bool blank = std::all_of(collector.row.cells.begin(), collector.row.cells.end(),
                                   [](const std::string& cell) { return cell.empty(); });
    CsvRow next{collector.row.line + 1, collector.row.text_line + 1};
    for (const std::string& cell : collector.row.cells) {
      next.text_line += static_cast<int>(std::count(cell.begin(), cell.end(), '\n'));
    }
    if (!blank) collector.rows.push_back(std::move(collector.row));
    collector.row = std::move(next);
  } catch (...) {
    collector.failed = std::current_exception();
  }
}

class Parser {
 public:
  explicit Parser(char separator) {
    csv_init(&parser_, CSV_REPALL_NL);
    csv_set_delim(&parser_, static_cast<unsigned char>(separator));
  }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  ~Parser() { csv_free(&parser_); }

  std::vector<CsvRow> rows(const std::string& text, const std::string& file) {
    Collector collector;
    const bool whole =
        csv_parse(&parser_, text.data(), text.size(), on_cell, on_row, &collector) == text.size();
    csv_fini(&parser_, on_cell, on_row, &collector);
    if (collector.failed) std::rethrow_exception(collector.failed);
    if (!whole) throw Error(file, findings::not_a_table(csv_strerror(csv_error(&parser_))));
    return std::move(collector.rows);
  }

 private:
  csv_parser parser_;
};

/// Line ends as LF: the parser counts a CR and an LF as two.
std::string with_plain_line_ends(std::string_view text) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r') {
      plain += text[i];
    } else if (i + 1 >= text.size() || text[i + 1] != '\n') {
      plain += '\n';
    }
  }
  return plain;
}

/// Quotation marks in lines that begin with # are part of a remark, and quote nothing.
std::string without_quotes_in_remarks(std::string text) {
  bool quoted = false;
  bool remark = false;
  bool line_begins = true;
  for (char& c : text) {
    if (line_begins && !quoted) remark = c == '#';
    line_begins = c == '\n';
    if (c != '"') continue;
    if (remark) {
      c = '\'';
    } else {
      quoted = !quoted;
    }
  }
  return text;
}

/// The most rows that have the same number of cells, and that number; nothing when no row is
/// separated into cells.
std::pair<int, std::size_t> evidence(const std::vector<CsvRow>& rows) {
  std::map<std::size_t, int> rows_of_width;
  for (const CsvRow& row : rows) ++rows_of_width[row.cells.size()];
  std::pair<int, std::size_t> best;
  for (const auto& [width, count] : rows_of_width) {
    if (width > 1) best = std::max(best, {count, width});
  }
  return best;
}

/// Quotes come in pairs; where they do not, the last one opens what is never closed.
void require_closed_quotes(std::string_view plain, const std::string& file) {
  if (std::count(plain.begin(), plain.end(), '"') % 2 == 0) return;
  const std::string_view before = plain.substr(0, plain.rfind('"'));
  throw Error(file, findings::quotation_open(1 + std::count(before.begin(), before.end(), '\n')));
}

}  // namespace

bool is_text(std::string_view text) {
  while (!text.empty()) {
    const auto character = first_character(text);
    if (!character || character->code_point == 0) return false;
    text.remove_prefix(character->bytes);
  }
  return true;
}

std::vector<CsvRow> parse_csv(std::string_view text, const std::string& file) {
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  if (!is_text(text)) {
    throw Error(file, findings::not_utf8_table());
  }
  const std::string plain = without_quotes_in_remarks(with_plain_line_ends(text));
  require_closed_quotes(plain, file);
  std::vector<CsvRow> best;
  std::pair<int, std::size_t> most;
  for (const char separator : {';', '\t', ','}) {
    std::vector<CsvRow> rows = Parser(separator).rows(plain, file);
    const auto found = evidence(rows);
    if (best.empty() || found > most) best = std::move(rows);
    most = std::max(most, found);
  }
  return best;
}

namespace {

bool is_formula(const std::string& cell) {
  return !cell.empty() && std::string_view("=+-@\t\r").find(cell[0]) != std::string_view::npos &&
         !parse_number(cell);
}

}  // namespace

std::string csv_line(const std::vector<std::string>& cells, char separator) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += separator;
    const std::string cell = is_formula(cells[i]) ? "'" + cells[i] : cells[i];
    if (cell.find_first_of(std::string("\"\n") + separator) == std::string::npos) {
      line += cell;
      continue;
    }
    std::string quoted(csv_write(nullptr, 0, cell.data(), cell.size()), '\0');
    csv_write(quoted.data(), quoted.size(), cell.data(), cell.size());
    line += quoted;
  }
  return line;
}

}  // namespace versolay
