#include "target/qr_code.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <stdexcept>
#include <string_view>

#include "target/error_correction.h"

// Clauses are those of ISO/IEC 18004:2015, from memory; the tests compare with another encoder.
namespace versolay {
namespace {

constexpr int kSize = 25;
constexpr std::size_t kDataWords = 22;
constexpr int kCheckWords = 22;
constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
constexpr std::size_t kFewest = 17;  // 16 and fewer make version 1
constexpr std::size_t kMost = 29;

class BitString {
 public:
  void add(int value, int width) {
    for (int bit = width - 1; bit >= 0; --bit) bits_.push_back((value >> bit & 1) != 0);
  }
  std::size_t size() const { return bits_.size(); }
  bool at(std::size_t i) const { return i < bits_.size() && bits_[i]; }

 private:
  std::vector<bool> bits_;
};

int number_of(char character) { return static_cast<int>(kAlphabet.find(character)); }

/// Mode, count, pairs of characters, terminator and padding: 7.4.
std::vector<std::uint8_t> data_words(const std::string& text) {
  constexpr int kAlphanumericMode = 2;
  BitString bits;
  bits.add(kAlphanumericMode, 4);
  bits.add(static_cast<int>(text.size()), 9);
  for (std::size_t i = 0; i + 1 < text.size(); i += 2) {
    bits.add(45 * number_of(text[i]) + number_of(text[i + 1]), 11);
  }
  if (text.size() % 2 == 1) bits.add(number_of(text.back()), 6);
  bits.add(0, static_cast<int>(std::min<std::size_t>(4, 8 * kDataWords - bits.size())));
  while (bits.size() % 8 != 0) bits.add(0, 1);
  for (int pad = 0xEC; bits.size() < 8 * kDataWords; pad ^= 0xEC ^ 0x11) bits.add(pad, 8);

  std::vector<std::uint8_t> words(kDataWords, 0);
  for (std::size_t i = 0; i < bits.size(); ++i) {
    words[i / 8] = static_cast<std::uint8_t>(words[i / 8] << 1 | (bits.at(i) ? 1 : 0));
  }
  return words;
}

/// The symbol while it is filled: what is a function pattern is no place for data.
struct Symbol {
  std::array<std::array<bool, kSize>, kSize> black{};  // [row][column]
  std::array<std::array<bool, kSize>, kSize> taken{};

  void set(int row, int column, bool value) {
    black[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] = value;
    taken[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] = true;
  }
  bool at(int row, int column) const {
    return black[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
  }
  bool is_taken(int row, int column) const {
    return taken[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
  }
};

/// A finder pattern and its separator, middle at (row, column): 6.3.3, 6.3.4.
void add_finder(Symbol& symbol, int row, int column) {
  for (int y = -4; y <= 4; ++y) {
    for (int x = -4; x <= 4; ++x) {
      if (row + y < 0 || row + y >= kSize || column + x < 0 || column + x >= kSize) continue;
      const int ring = std::max(std::abs(x), std::abs(y));
      symbol.set(row + y, column + x, ring != 2 && ring != 4);
    }
  }
}

/// Everything that is the same for all texts, but the format information: 6.3.
Symbol function_patterns() {
  Symbol symbol;
  for (int i = 0; i < kSize; ++i) {
    symbol.set(6, i, i % 2 == 0);
    symbol.set(i, 6, i % 2 == 0);
  }
  add_finder(symbol, 3, 3);
  add_finder(symbol, 3, kSize - 4);
  add_finder(symbol, kSize - 4, 3);
  constexpr int kAlignment = 18;
  for (int y = -2; y <= 2; ++y) {
    for (int x = -2; x <= 2; ++x) {
      symbol.set(kAlignment + y, kAlignment + x, std::max(std::abs(x), std::abs(y)) != 1);
    }
  }
  return symbol;
}

/// Level Q and the mask, with their check bits, twice: 7.9.
void add_format(Symbol& symbol, int mask) {
  constexpr int kLevelQ = 3;
  const int data = kLevelQ << 3 | mask;
  int remainder = data << 10;
  for (int bit = 14; bit >= 10; --bit) {
    if (remainder >> bit & 1) remainder ^= 0x537 << (bit - 10);
  }
  const int format = (data << 10 | remainder) ^ 0x5412;
  for (int i = 0; i < 15; ++i) {
    const bool bit = (format >> i & 1) != 0;
    // About the upper left finder pattern, from the top down and then to the left.
    const int row = i < 6 ? i : i < 8 ? i + 1 : 8;
    const int column = i < 8 ? 8 : i == 8 ? 7 : 14 - i;
    symbol.set(row, column, bit);
    // Beside the two others.
    if (i < 8) {
      symbol.set(8, kSize - 1 - i, bit);
    } else {
      symbol.set(kSize - 15 + i, 8, bit);
    }
  }
  symbol.set(kSize - 8, 8, true);
}

/// 7.8.2.
bool mask_inverts(int mask, int row, int column) {
  const int product = row * column;
  switch (mask) {
    case 0:
      return (row + column) % 2 == 0;
    case 1:
      return row % 2 == 0;
    case 2:
      return column % 3 == 0;
    case 3:
      return (row + column) % 3 == 0;
    case 4:
      return (row / 2 + column / 3) % 2 == 0;
    case 5:
      return product % 2 + product % 3 == 0;
    case 6:
      return (product % 2 + product % 3) % 2 == 0;
    default:
      return ((row + column) % 2 + product % 3) % 2 == 0;
  }
}

/// In columns of two modules, from the right, upwards and downwards in turn: 7.7.3.
void add_data(Symbol& symbol, const BitString& bits, int mask) {
  std::size_t next = 0;
  bool upwards = true;
  for (int right = kSize - 1; right > 0; right -= 2, upwards = !upwards) {
    if (right == 6) --right;  // the timing pattern
    for (int i = 0; i < kSize; ++i) {
      const int row = upwards ? kSize - 1 - i : i;
      for (const int column : {right, right - 1}) {
        if (symbol.is_taken(row, column)) continue;
        symbol.set(row, column, bits.at(next++) != mask_inverts(mask, row, column));
      }
    }
  }
}

/// Runs of five and more in the rows: 7.8.3.
int penalty_of_runs(const Symbol& symbol, bool of_columns) {
  int penalty = 0;
  for (int line = 0; line < kSize; ++line) {
    int run = 0;
    bool before = false;
    for (int i = 0; i < kSize; ++i) {
      const bool black = of_columns ? symbol.at(i, line) : symbol.at(line, i);
      run = i > 0 && black == before ? run + 1 : 1;
      before = black;
      if (run == 5) penalty += 3;
      if (run > 5) penalty += 1;
    }
  }
  return penalty;
}

int penalty_of_blocks(const Symbol& symbol) {
  int penalty = 0;
  for (int row = 0; row + 1 < kSize; ++row) {
    for (int column = 0; column + 1 < kSize; ++column) {
      const bool black = symbol.at(row, column);
      if (black == symbol.at(row, column + 1) && black == symbol.at(row + 1, column) &&
          black == symbol.at(row + 1, column + 1)) {
        penalty += 3;
      }
    }
  }
  return penalty;
}

/// What looks like a finder pattern with four white modules on one side of it, or the margin.
int penalty_of_false_finders(const Symbol& symbol, bool of_columns) {
  constexpr std::string_view kFinder = "1011101";
  constexpr std::string_view kWhite = "0000";
  int penalty = 0;
  for (int line = 0; line < kSize; ++line) {
    std::string modules(kWhite);
    for (int i = 0; i < kSize; ++i) {
      modules += (of_columns ? symbol.at(i, line) : symbol.at(line, i)) ? '1' : '0';
    }
    modules += kWhite;
    for (std::size_t at = modules.find(kFinder); at != std::string::npos;
         at = modules.find(kFinder, at + 1)) {
      const bool is_false = modules.compare(at - kWhite.size(), kWhite.size(), kWhite) == 0 ||
                            modules.compare(at + kFinder.size(), kWhite.size(), kWhite) == 0;
      if (is_false) penalty += 40;
    }
  }
  return penalty;
}

int penalty_of_share(const Symbol& symbol) {
  int black = 0;
  for (const auto& row : symbol.black)
    black += static_cast<int>(std::count(row.begin(), row.end(), true));
  return std::abs(2 * black - kSize * kSize) * 10 / (kSize * kSize) * 10;
}

int penalty(const Symbol& symbol) {
  return penalty_of_runs(symbol, false) + penalty_of_runs(symbol, true) +
         penalty_of_blocks(symbol) + penalty_of_false_finders(symbol, false) +
         penalty_of_false_finders(symbol, true) + penalty_of_share(symbol);
}

}  // namespace

ModuleGrid qr_modules(const std::string& text) {
  if (text.size() < kFewest || text.size() > kMost ||
      text.find_first_not_of(kAlphabet) != std::string::npos) {
    throw std::logic_error("the text \"" + text + "\" does not make a code of 25 modules");
  }
  const std::vector<std::uint8_t> data = data_words(text);
  BitString bits;
  for (const std::uint8_t word : data) bits.add(word, 8);
  for (const std::uint8_t word : check_words(data, kCheckWords, kQrChecks)) bits.add(word, 8);

  Symbol best;
  int least = -1;
  for (int mask = 0; mask < 8; ++mask) {
    Symbol symbol = function_patterns();
    add_format(symbol, mask);
    add_data(symbol, bits, mask);
    const int points = penalty(symbol);
    if (least >= 0 && points >= least) continue;
    least = points;
    best = symbol;
  }
  ModuleGrid modules{kSize, kSize, {}};
  for (const auto& row : best.black)
    modules.black.insert(modules.black.end(), row.begin(), row.end());
  return modules;
}

}  // namespace versolay
