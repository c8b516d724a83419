// Check words of matrix codes: the remainder of a division of polynomials over GF(256).
#pragma once

#include <cstdint>
#include <vector>

namespace versolay {

/// A Reed-Solomon code as the standards of matrix codes describe it.
struct CheckWordCode {
  int field_polynomial = 0;  // with the term of degree 8
  int first_root = 0;        // the generator's roots are 2^first_root, 2^(first_root + 1), ...
};
inline constexpr CheckWordCode kQrChecks{0x11D, 0};          // ISO/IEC 18004, 7.5 (from memory)
inline constexpr CheckWordCode kDataMatrixChecks{0x12D, 1};  // ISO/IEC 16022, 5.7 (from memory)

/// The `count` check words that follow the data.
std::vector<std::uint8_t> check_words(const std::vector<std::uint8_t>& data, int count,
                                      CheckWordCode code);

}  // namespace versolay
