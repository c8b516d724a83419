// A table that is printed for people: laid out to the width of a terminal, the same every time in a
// file (cli/table_layout.h).
#pragma once

#include <string>
#include <vector>

namespace versolay {

struct TextTable {
  std::vector<std::string> head;               // may have several lines
  std::vector<std::vector<std::string>> rows;  // as long as the head, or shorter
  bool ends_in_words = false;  // the last column is words, to the left; numbers stand to the right
};

}  // namespace versolay
