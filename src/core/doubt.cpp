#include "core/doubt.h"

#include <algorithm>

namespace versolay {

bool casts_doubt(std::string_view code) {
  return std::find(kDoubts.begin(), kDoubts.end(), code) != kDoubts.end();
}

std::vector<std::string> doubts_in(const Notices& warnings) {
  std::vector<std::string> doubts;
  for (const Notice& n : warnings) {
    if (casts_doubt(n.code) && std::find(doubts.begin(), doubts.end(), n.code) == doubts.end()) {
      doubts.push_back(n.code);
    }
  }
  return doubts;
}

}  // namespace versolay
