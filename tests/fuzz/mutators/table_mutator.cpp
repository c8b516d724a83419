// Tables: cells replaced by those at the edges, rows and columns that go or come twice, other
// separators, quotation marks and ends of line.
#include <algorithm>

#include "mutators/mutation.h"

namespace versolay::fuzz {
namespace {

using Row = std::vector<std::string>;

std::vector<std::string> divided(const std::string& text, char at) {
  std::vector<std::string> parts{""};
  for (const char c : text) {
    if (c == at) {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

std::string joined(const std::vector<std::string>& parts, const std::string& between) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) text += (i == 0 ? "" : between) + parts[i];
  return text;
}

std::string some_cell(Dice& dice) {
  static const std::vector<std::string> kCells = {"",
                                                  " ",
                                                  "0",
                                                  "-0",
                                                  "1",
                                                  "-1",
                                                  "1.5",
                                                  "1,5",
                                                  "1e308",
                                                  "-1e308",
                                                  "1e-320",
                                                  "nan",
                                                  "inf",
                                                  "-inf",
                                                  "0x10",
                                                  "1e400",
                                                  "10000",
                                                  "10001",
                                                  "99999999999999999999",
                                                  "2147483648",
                                                  "-2147483649",
                                                  "\"",
                                                  "\"\"",
                                                  "\"a\nb\"",
                                                  "\"a,b\"",
                                                  "=1+1",
                                                  "@x",
                                                  "+1",
                                                  "-",
                                                  "#",
                                                  "# note",
                                                  "a.png",
                                                  "a.pdf#3",
                                                  "a.pdf#0",
                                                  "a.pdf#99999999999",
                                                  "a.tif#-1",
                                                  "../a.png",
                                                  "/",
                                                  "\xff",
                                                  "\xe2\x80\xae",
                                                  "\x1b[31m",
                                                  std::string(1, '\0'),
                                                  "yes",
                                                  "x",
                                                  "R1",
                                                  "V1"};
  return dice.one_in(20) ? std::string(5000, 'x') : dice.pick(kCells);
}

void change_one(std::vector<Row>& rows, Dice& dice) {
  const std::size_t at = dice.roll(rows.size());
  Row& row = rows[at];
  const std::size_t column = dice.roll(row.size());
  const auto there = rows.begin() + static_cast<std::ptrdiff_t>(at);
  switch (dice.roll(9)) {
    case 0:
    case 1:
    case 2:
      row[column] = some_cell(dice);
      break;
    case 3:
      row[column] = changed_bytes(row[column], dice);
      break;
    case 4:
      row.insert(row.begin() + static_cast<std::ptrdiff_t>(column), some_cell(dice));
      break;
    case 5:
      if (row.size() > 1) row.erase(row.begin() + static_cast<std::ptrdiff_t>(column));
      break;
    case 6: {
      const Row copy = row;
      rows.insert(there, 1 + dice.roll(dice.one_in(8) ? 300 : 3), copy);
      break;
    }
    case 7:
      if (rows.size() > 1) rows.erase(there);
      break;
    default:  // a column of all rows changes places with another
      for (Row& r : rows) {
        if (column < r.size()) std::swap(r[column], r[dice.roll(r.size())]);
      }
  }
}

}  // namespace

std::string mutated(const std::string& input, Dice& dice) {
  if (dice.one_in(8)) return changed_bytes(input, dice);
  char separator = ',';
  for (const char c : {';', '\t'}) {
    if (std::count(input.begin(), input.end(), c) >
        std::count(input.begin(), input.end(), separator)) {
      separator = c;
    }
  }
  std::vector<Row> rows;
  for (const std::string& line : divided(input, '\n')) rows.push_back(divided(line, separator));
  for (std::size_t n = 1 + dice.roll(3); n > 0; --n) change_one(rows, dice);
  if (dice.one_in(10)) separator = dice.pick(std::string(";,\t|: "));
  std::vector<std::string> lines;
  for (const Row& row : rows) lines.push_back(joined(row, std::string(1, separator)));
  const std::string start = dice.one_in(20) ? "\xef\xbb\xbf" : "";
  return start + joined(lines, dice.one_in(10) ? "\r\n" : "\n");
}

}  // namespace versolay::fuzz
