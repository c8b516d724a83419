// What all structure-aware mutators share: chance, and values at the edges of what a field holds.
//
// A mutator takes an input apart, changes one of its parts and puts it together again, sums and
// lengths mended. Changes of single bytes hardly ever get past the first sum of a PNG or the first
// bracket of a JSON file.
#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace versolay::fuzz {

/// Chance of one mutation. The same seed gives the same mutation.
class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  /// 0 <= value < sides. Precondition: sides > 0.
  std::size_t roll(std::size_t sides) { return engine_() % sides; }
  bool one_in(std::size_t sides) { return roll(sides) == 0; }
  template <class List>
  const auto& pick(const List& list) {
    return list[roll(list.size())];
  }

 private:
  std::mt19937 engine_;
};

/// Integers at the edges of what counts, lengths and sizes can be.
inline std::uint32_t edge_number(Dice& dice) {
  static constexpr std::array<std::uint32_t, 21> kEdges = {
      0,     1,      2,          3,          4,          7,          8,
      9,     16,     255,        256,        4096,       30000,      32767,
      65535, 100000, 0x7ffffffe, 0x7fffffff, 0x80000000, 0xfffffff0, 0xffffffff};
  return dice.pick(kEdges);
}

/// 0 to 29 bytes of any value.
inline std::string some_bytes(Dice& dice) {
  std::string bytes;
  for (std::size_t n = dice.roll(30); n > 0; --n) bytes += static_cast<char>(dice.roll(256));
  return bytes;
}

/// One of the parts goes, comes twice, or changes places with another. Precondition: not empty.
template <class Part>
void rearrange(std::vector<Part>& parts, Dice& dice) {
  const std::size_t at = dice.roll(parts.size());
  const auto there = parts.begin() + static_cast<std::ptrdiff_t>(at);
  switch (dice.roll(3)) {
    case 0:
      if (parts.size() > 1) parts.erase(there);
      break;
    case 1: {
      const Part copy = parts[dice.roll(parts.size())];
      parts.insert(there, copy);
      break;
    }
    default:
      std::swap(parts[at], parts[dice.roll(parts.size())]);
  }
}

/// Changes single bytes: libFuzzer's own mutations, or a stand-in where there is no libFuzzer.
std::string changed_bytes(std::string bytes, Dice& dice);

/// The mutation of a kind of input; each harness links one. An input that cannot be taken apart is
/// changed by its bytes.
std::string mutated(const std::string& input, Dice& dice);

}  // namespace versolay::fuzz
