#include "cli/suggestion.h"

#include <algorithm>

namespace versolay::cli {

int edits_between(std::string_view a, std::string_view b) {
  std::vector<std::vector<int>> d(a.size() + 1, std::vector<int>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = static_cast<int>(i);
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int replaced = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, replaced});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& known) {
  const auto letters =
      static_cast<int>(std::count_if(word.begin(), word.end(), [](char c) { return c != '-'; }));
  const std::string* nearest = nullptr;
  int least = letters / 3 + 1;  // one more than is allowed
  for (const std::string& candidate : known) {
    const int edits = edits_between(word, candidate);
    if (edits < least) {
      least = edits;
      nearest = &candidate;
    }
  }
  if (nearest == nullptr || least == 0) return std::nullopt;
  return *nearest;
}

}  // namespace versolay::cli
