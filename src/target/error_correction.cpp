#include "target/error_correction.h"

namespace versolay {
namespace {

/// Product in GF(256), by shifting and adding.
std::uint8_t product(int a, int b, int field_polynomial) {
  int result = 0;
  for (; b != 0; b >>= 1) {
    if (b & 1) result ^= a;
    a <<= 1;
    if (a & 0x100) a ^= field_polynomial;
  }
  return static_cast<std::uint8_t>(result);
}

/// Coefficients without the leading 1, highest degree first.
std::vector<std::uint8_t> generator(int degree, CheckWordCode code) {
  std::vector<std::uint8_t> coefficients(static_cast<std::size_t>(degree), 0);
  coefficients.back() = 1;
  std::uint8_t root = 1;
  for (int i = 0; i < code.first_root; ++i) root = product(root, 2, code.field_polynomial);
  for (int i = 0; i < degree; ++i) {
    for (std::size_t j = 0; j < coefficients.size(); ++j) {
      coefficients[j] = product(coefficients[j], root, code.field_polynomial);
      if (j + 1 < coefficients.size()) coefficients[j] ^= coefficients[j + 1];
    }
    root = product(root, 2, code.field_polynomial);
  }
  return coefficients;
}

}  // namespace

std::vector<std::uint8_t> check_words(const std::vector<std::uint8_t>& data, int count,
                                      CheckWordCode code) {
  const std::vector<std::uint8_t> divisor = generator(count, code);
  std::vector<std::uint8_t> remainder(divisor.size(), 0);
  for (const std::uint8_t word : data) {
    const std::uint8_t factor = word ^ remainder.front();
    remainder.erase(remainder.begin());
    remainder.push_back(0);
    for (std::size_t i = 0; i < remainder.size(); ++i) {
      remainder[i] ^= product(divisor[i], factor, code.field_polynomial);
    }
  }
  return remainder;
}

}  // namespace versolay
