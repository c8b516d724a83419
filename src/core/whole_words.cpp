#include "core/whole_words.h"

#include <algorithm>

namespace versolay {
namespace {

bool is_unit(std::string_view word) {
  word = word.substr(0, word.find_last_not_of(".,:;)") + 1);
  for (const char* unit : {"mm", "px", "in", "um", "mrad", "degrees", "ppi", "dpi", "%"}) {
    if (word == unit) return true;
  }
  return false;
}

}  // namespace

std::vector<std::string_view> whole_words(std::string_view text) {
  std::vector<std::string_view> words;
  bool after_number = false;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find(' ', from), text.size());
    const std::string_view word = text.substr(from, end - from);
    if (after_number && is_unit(word)) {
      const std::string_view number = words.back();
      words.back() = {number.data(), number.size() + 1 + word.size()};
    } else {
      words.push_back(word);
    }
    after_number = !word.empty() && word.back() >= '0' && word.back() <= '9';
    from = end + 1;
  }
  return words;
}

}  // namespace versolay
