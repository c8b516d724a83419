#include "target/data_matrix.h"

#include <array>
#include <cstdint>
#include <stdexcept>
#include <vector>

#include "target/error_correction.h"

// Clauses are those of ISO/IEC 16022:2006, from memory; the tests compare with another encoder.
namespace versolay {
namespace {

// Two regions side by side, each with a border of one module.
constexpr int kRows = 16;
constexpr int kColumns = 36;
constexpr int kRegionColumns = 18;
constexpr std::size_t kDataWords = 32;
constexpr int kCheckWords = 24;
// The inner modules of both regions together.
constexpr int kInnerRows = kRows - 2;
constexpr int kInnerColumns = kColumns - 4;

/// Two digits a word: 5.2.3. What is left is filled up: 5.2.4.2, annex B.1.
std::vector<std::uint8_t> data_words(const std::string& digits) {
  constexpr int kFirstPair = 130;
  constexpr int kPad = 129;
  std::vector<std::uint8_t> words;
  for (std::size_t i = 0; i < digits.size(); i += 2) {
    const int first = digits[i] - '0';
    const int word =
        i + 1 < digits.size() ? kFirstPair + 10 * first + (digits[i + 1] - '0') : digits[i] + 1;
    words.push_back(static_cast<std::uint8_t>(word));
  }
  if (words.size() < kDataWords) words.push_back(kPad);
  while (words.size() < kDataWords) {
    const int place = static_cast<int>(words.size()) + 1;
    const int word = kPad + 149 * place % 253 + 1;
    words.push_back(static_cast<std::uint8_t>(word > 254 ? word - 254 : word));
  }
  return words;
}

/// Where each bit of each word is: annex F. In this size one word has a shape for corners, the
/// fourth one, and no module is left over.
class Placement {
 public:
  explicit Placement(const std::vector<std::uint8_t>& words) : words_(words) {
    int row = 4;
    int column = 0;
    do {
      if (row == kInnerRows + 4 && column == 2) add_corner();
      do {  // up and to the right
        if (row < kInnerRows && column >= 0) add_word(row, column);
        row -= 2;
        column += 2;
      } while (row >= 0 && column < kInnerColumns);
      row += 1;
      column += 3;
      do {  // down and to the left
        if (row >= 0 && column < kInnerColumns) add_word(row, column);
        row += 2;
        column -= 2;
      } while (row < kInnerRows && column >= 0);
      row += 3;
      column += 1;
    } while (row < kInnerRows || column < kInnerColumns);
  }

  bool black(int row, int column) const { return cell(row, column) == 1; }

 private:
  using Shape = std::array<std::array<int, 2>, 8>;  // rows and columns, from the first bit on

  /// Eight modules, the last of them at (row, column), unless they are taken. What is beyond an
  /// edge comes in at the other one.
  void add_word(int row, int column) {
    if (cell(row, column) >= 0) return;
    Shape shape = {{{-2, -2}, {-2, -1}, {-1, -2}, {-1, -1}, {-1, 0}, {0, -2}, {0, -1}, {0, 0}}};
    for (auto& [y, x] : shape) {
      y += row;
      x += column;
      if (y < 0) {
        y += kInnerRows;
        x += 4 - (kInnerRows + 4) % 8;
      }
      if (x < 0) {
        x += kInnerColumns;
        y += 4 - (kInnerColumns + 4) % 8;
      }
    }
    set_next_word(shape);
  }

  void add_corner() {
    constexpr int kRight = kInnerColumns - 1;
    set_next_word({{{kInnerRows - 1, 0},
                    {kInnerRows - 1, kRight},
                    {0, kRight - 2},
                    {0, kRight - 1},
                    {0, kRight},
                    {1, kRight - 2},
                    {1, kRight - 1},
                    {1, kRight}}});
  }

  void set_next_word(const Shape& shape) {
    const std::uint8_t word = words_.at(next_++);
    for (std::size_t bit = 0; bit < 8; ++bit) {
      cells_.at(index(shape[bit][0], shape[bit][1])) = word >> (7 - bit) & 1;
    }
  }

  static std::size_t index(int row, int column) {
    return static_cast<std::size_t>(row * kInnerColumns + column);
  }
  int cell(int row, int column) const { return cells_[index(row, column)]; }

  const std::vector<std::uint8_t>& words_;
  std::size_t next_ = 0;
  std::vector<int> cells_ = std::vector<int>(kInnerRows * kInnerColumns, -1);
};

}  // namespace

ModuleGrid data_matrix_modules(const std::string& digits) {
  if (digits.size() < 61 || digits.size() > 2 * kDataWords ||
      digits.find_first_not_of("0123456789") != std::string::npos) {
    throw std::logic_error("the digits " + digits + " do not make a code of 16 x 36 modules");
  }
  std::vector<std::uint8_t> words = data_words(digits);
  const auto checks = check_words(words, kCheckWords, kDataMatrixChecks);
  words.insert(words.end(), checks.begin(), checks.end());
  const Placement placement(words);

  ModuleGrid modules{kRows, kColumns, {}};
  for (int row = 0; row < kRows; ++row) {
    for (int column = 0; column < kColumns; ++column) {
      const int across = column % kRegionColumns;
      bool black = false;
      if (across == 0 || row == kRows - 1) {
        black = true;
      } else if (row == 0) {
        black = across % 2 == 0;
      } else if (across == kRegionColumns - 1) {
        black = row % 2 == 1;
      } else {
        black = placement.black(row - 1, column - 1 - 2 * (column / kRegionColumns));
      }
      modules.black.push_back(black);
    }
  }
  return modules;
}

}  // namespace versolay
