#include "core/csv.h"

#include <csv.h>

#include <algorithm>
#include <exception>

#include "core/translation.h"
#include "core/utf8.h"
#include "versolay/result.h"

namespace versolay {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// What the parser's callbacks record. They are called from C and must not throw.
struct Collector {
  std::vector<CsvRow> rows;
  CsvRow row{1, {}};
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
    const int next = collector.row.line + 1;
    if (!blank) collector.rows.push_back(std::move(collector.row));
    collector.row = {next, {}};
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
    if (!whole) throw Error(file, csv_strerror(csv_error(&parser_)));
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

bool is_text(std::string_view text) {
  while (!text.empty()) {
    const auto character = first_character(text);
    if (!character || character->code_point == 0) return false;
    text.remove_prefix(character->bytes);
  }
  return true;
}

/// How many rows are as wide as the widest, times that width; 0 when nothing is parted.
std::size_t evidence(const std::vector<CsvRow>& rows) {
  std::size_t width = 1;
  for (const CsvRow& row : rows) width = std::max(width, row.cells.size());
  if (width == 1) return 0;
  return width *
         static_cast<std::size_t>(std::count_if(rows.begin(), rows.end(), [&](const CsvRow& row) {
           return row.cells.size() == width;
         }));
}

}  // namespace

std::vector<CsvRow> parse_csv(std::string_view text, const std::string& file) {
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  if (!is_text(text)) {
    throw Error(file, tr("is no text table in UTF-8. Save it from the spreadsheet program as CSV, "
                         "character set UTF-8"));
  }
  if (std::count(text.begin(), text.end(), '"') % 2 != 0) {
    throw Error(file, tr("a quotation mark is opened and never closed"));
  }
  const std::string plain = with_plain_line_ends(text);
  std::vector<CsvRow> best;
  std::size_t most = 0;
  for (const char separator : {';', '\t', ','}) {
    std::vector<CsvRow> rows = Parser(separator).rows(plain, file);
    const std::size_t found = evidence(rows);
    if (best.empty() || found > most) best = std::move(rows);
    most = std::max(most, found);
  }
  return best;
}

std::string csv_line(const std::vector<std::string>& cells, char separator) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += separator;
    const std::string& cell = cells[i];
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
