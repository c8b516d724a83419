// Tables as wide as the terminal.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/text_table.h"

namespace versolay::cli {

/// The lines of a table, none wider than `columns` where that can be helped: in columns if these
/// fit; else with the words of the last column wrapped in it; else each row as a block, a line for
/// every cell after its title. `columns` 0 (no terminal): in columns. Cells are broken at spaces
/// only, never in a number.
std::string table_lines(const TextTable& table, int columns);

/// What a command prints: prose, and tables that start on a line of their own.
class PrintedText {
 public:
  PrintedText() = default;
  PrintedText(std::string text);  // NOLINT(google-explicit-constructor): a text is one
  PrintedText& operator+=(const std::string& text);
  PrintedText& operator+=(TextTable table);

  /// Wrapped to so many columns; 0: as it is.
  std::string laid_out(int columns) const;

 private:
  std::vector<std::variant<std::string, TextTable>> parts_;
};

}  // namespace versolay::cli
