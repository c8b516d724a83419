#include "core/natural_order.h"

#include <algorithm>
#include <cctype>

namespace versolay {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

bool natural_less(const std::string& a, const std::string& b) {
  std::size_t i = 0;
  std::size_t j = 0;
  const auto number = [](const std::string& s, std::size_t& at) {
    const std::size_t start = std::min(s.find_first_not_of('0', at), s.size());
    std::size_t end = start;
    while (end < s.size() && is_digit(s[end])) ++end;
    at = end;
    return s.substr(start, end - start);
  };
  while (i < a.size() && j < b.size()) {
    if (is_digit(a[i]) && is_digit(b[j])) {
      const std::string one = number(a, i);
      const std::string other = number(b, j);
      if (one.size() != other.size()) return one.size() < other.size();
      if (one != other) return one < other;
    } else {
      const int one = std::tolower(static_cast<unsigned char>(a[i++]));
      const int other = std::tolower(static_cast<unsigned char>(b[j++]));
      if (one != other) return one < other;
    }
  }
  if ((i < a.size()) != (j < b.size())) return j < b.size();
  return a < b;  // names that differ by case or leading zeros only still have one order
}

}  // namespace versolay
