#include "mutators/tiff_parts.h"

#include <algorithm>

namespace versolay::fuzz {
namespace {

constexpr std::size_t kEntryBytes = 12;

/// The bytes of a TIFF file, read and written in its own byte order.
class TiffBytes {
 public:
  explicit TiffBytes(std::string bytes) : bytes_(std::move(bytes)), little_(bytes_[0] == 'I') {}

  std::uint32_t get(std::size_t at, std::size_t size) const {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
      const std::size_t from = at + (little_ ? size - 1 - i : i);
      value = value << 8 | (from < bytes_.size() ? static_cast<unsigned char>(bytes_[from]) : 0u);
    }
    return value;
  }
  void put(std::size_t at, std::size_t size, std::uint32_t value) {
    for (std::size_t i = 0; i < size; ++i) {
      const std::size_t to = at + (little_ ? i : size - 1 - i);
      if (to < bytes_.size()) bytes_[to] = static_cast<char>(value >> (8 * i) & 0xff);
    }
  }
  std::size_t size() const { return bytes_.size(); }
  std::string& bytes() { return bytes_; }

 private:
  std::string bytes_;
  bool little_;
};

/// Where the directories begin, in the order of the chain.
std::vector<std::size_t> directories_of(const TiffBytes& tiff) {
  std::vector<std::size_t> starts;
  std::size_t at = tiff.get(4, 4);
  while (at != 0 && at + 2 < tiff.size() && starts.size() < 16 &&
         std::find(starts.begin(), starts.end(), at) == starts.end()) {
    starts.push_back(at);
    at = tiff.get(at + 2 + tiff.get(at, 2) * kEntryBytes, 4);
  }
  return starts;
}

std::uint32_t some_tag(Dice& dice) {
  static constexpr std::array<std::uint32_t, 34> kTags = {
      254, 256, 257, 258, 259, 262, 263, 266, 273, 274, 277, 278, 279, 280, 281, 282, 283,
      284, 292, 296, 301, 317, 320, 322, 323, 324, 325, 330, 332, 338, 339, 347, 530, 34675};
  return dice.pick(kTags);
}

/// A value that some tag gives a meaning to, or one at an edge.
std::uint32_t some_value(Dice& dice) {
  static constexpr std::array<std::uint32_t, 20> kCodes = {
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 16, 32, 64, 32773, 32946, 34676, 50000, 50001, 34925};
  return dice.one_in(3) ? edge_number(dice) : dice.pick(kCodes);
}

void change_entry(TiffBytes& tiff, std::size_t directory, Dice& dice) {
  const std::size_t entries = tiff.get(directory, 2);
  if (entries == 0) return;
  const std::size_t entry = directory + 2 + dice.roll(entries) * kEntryBytes;
  switch (dice.roll(6)) {
    case 0:
      tiff.put(entry, 2, some_tag(dice));
      break;
    case 1:
      tiff.put(entry + 2, 2, static_cast<std::uint32_t>(dice.roll(19)));
      break;
    case 2:
      tiff.put(entry + 4, 4, edge_number(dice));
      break;
    case 3:
      tiff.put(entry + 8, 4, some_value(dice));
      break;
    case 4:  // a short value: only its own two bytes
      tiff.put(entry + 8, 2, some_value(dice));
      break;
    default: {  // what it points to
      const std::size_t pointed_to = tiff.get(entry + 8, 4);
      tiff.put(pointed_to + 4 * dice.roll(4), 4, some_value(dice));
    }
  }
}

/// A copy of the directory at the end of the file, one of its entries replaced or one more.
void copy_directory(TiffBytes& tiff, std::size_t directory, std::size_t link_at, Dice& dice) {
  const std::size_t entries = std::min<std::size_t>(tiff.get(directory, 2), 60);
  std::string copy = tiff.bytes().substr(directory, 2 + entries * kEntryBytes);
  copy.resize(2 + (entries + 1) * kEntryBytes + 4, '\0');
  if (tiff.size() % 2 != 0) tiff.bytes() += '\0';
  const std::size_t start = tiff.size();
  const std::uint32_t next = tiff.get(link_at, 4);
  tiff.bytes() += copy;
  tiff.put(start, 2, static_cast<std::uint32_t>(entries + 1));
  const std::size_t added = start + 2 + entries * kEntryBytes;
  tiff.put(added, 2, some_tag(dice));
  tiff.put(added + 2, 2, static_cast<std::uint32_t>(3 + dice.roll(2)));
  tiff.put(added + 4, 4, 1);
  tiff.put(added + 8, dice.one_in(2) ? 2 : 4, some_value(dice));
  tiff.put(added + kEntryBytes, 4, dice.one_in(2) ? 0 : next);
  tiff.put(link_at, 4, static_cast<std::uint32_t>(start));
}

}  // namespace

bool is_tiff(std::string_view bytes) {
  return bytes.size() > 8 && (bytes.substr(0, 4) == std::string_view("II\x2a\0", 4) ||
                              bytes.substr(0, 4) == std::string_view("MM\0\x2a", 4));
}

std::string mutated_tiff(const std::string& input, Dice& dice) {
  TiffBytes tiff(input);
  for (std::size_t n = 1 + dice.roll(3); n > 0; --n) {
    const std::vector<std::size_t> directories = directories_of(tiff);
    if (directories.empty()) return changed_bytes(input, dice);
    const std::size_t number = dice.roll(directories.size());
    const std::size_t directory = directories[number];
    const std::size_t link = directory + 2 + tiff.get(directory, 2) * kEntryBytes;
    switch (dice.roll(8)) {
      case 0:  // a chain that leads back or nowhere
        tiff.put(link, 4,
                 dice.one_in(2) ? static_cast<std::uint32_t>(dice.pick(directories))
                                : edge_number(dice));
        break;
      case 1:
        tiff.put(directory, 2, static_cast<std::uint32_t>(dice.roll(40)));
        break;
      case 2:  // one page more
        copy_directory(tiff, directory, link, dice);
        break;
      case 3:  // instead of the first
        copy_directory(tiff, directory, 4, dice);
        break;
      default:
        change_entry(tiff, directory, dice);
    }
  }
  return tiff.bytes();
}

}  // namespace versolay::fuzz
