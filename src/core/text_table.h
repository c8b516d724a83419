// A table for people: fitted to the width of a terminal, of constant width in a file
// (cli/table_layout.h).
#pragma once

#include <string>
#include <vector>

namespace versolay {

struct TextTable {
  std::vector<std::string> head;               // may have several lines
  std::vector<std::vector<std::string>> rows;  // as long as the head, or shorter
  bool ends_in_words = false;  // the last column is text, aligned left; numbers align right
};

}  // namespace versolay
