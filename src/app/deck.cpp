#include "app/deck.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <optional>
#include <set>

#include "core/files.h"
#include "core/numbers.h"
#include "versolay/result.h"

namespace versolay {
namespace {

namespace fs = std::filesystem;

constexpr int kMostCopies = 1000;

struct NamedCard {
  fs::path front;
  fs::path back;
};

std::vector<fs::path> images_in(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const bool hidden = entry.path().filename().string().starts_with(".");
    if (!hidden && entry.is_regular_file() && has_image_name(entry.path())) {
      files.push_back(entry.path());
    }
  }
  if (error) throw Error(folder.string(), "cannot be listed: " + error.message());
  if (files.empty())
    throw Error(folder.string(), "holds no JPEG or PNG files. Name another folder");
  std::sort(files.begin(), files.end(), [](const fs::path& a, const fs::path& b) {
    return natural_less(a.filename().string(), b.filename().string());
  });
  return files;
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(kBlank) - first + 1));
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(separator, at), text.size());
    parts.push_back(trimmed(text.substr(at, end - at)));
    at = end + 1;
  }
  return parts;
}

/// The list of cards: see the header of this room.
class CardList {
 public:
  explicit CardList(const fs::path& path) : path_(path) {}

  std::vector<NamedCard> read() {
    std::vector<NamedCard> cards;
    int line_number = 0;
    for (const std::string& line : split(read_file(path_), '\n')) {
      ++line_number;
      if (line.empty() || line.starts_with("#")) continue;
      const auto fields = split(line, ',');
      if (columns_.empty()) {
        name_columns(fields, line_number);
      } else {
        append(cards, fields, line_number);
      }
    }
    if (cards.empty()) throw Error(path_.string(), "lists no cards");
    return cards;
  }

 private:
  Error problem(int line, const std::string& what) const {
    return Error(path_.string() + " line " + std::to_string(line), what);
  }

  void name_columns(const std::vector<std::string>& fields, int line) {
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (fields[i] != "front" && fields[i] != "back" && fields[i] != "copies") {
        throw problem(line, "names a column \"" + fields[i] +
                                "\". The first line of a list of cards names its columns: front, "
                                "and if wanted back and copies");
      }
      columns_[fields[i]] = i;
    }
    if (!columns_.contains("front")) throw problem(line, "has no column front");
  }

  void append(std::vector<NamedCard>& cards, const std::vector<std::string>& fields, int line) {
    const auto field = [&](const std::string& name) -> std::string {
      const auto column = columns_.find(name);
      return column != columns_.end() && column->second < fields.size() ? fields[column->second]
                                                                        : std::string();
    };
    if (fields.size() > columns_.size()) {
      throw problem(line,
                    "has more fields than the first line names (a file name may not hold a "
                    "comma)");
    }
    if (field("front").empty()) throw problem(line, "names no front");
    const std::string copies_text = field("copies");
    const auto copies = copies_text.empty() ? std::optional(1) : parse_integer(copies_text);
    if (!copies || *copies < 0 || *copies > kMostCopies) {
      throw problem(line, "copies is \"" + copies_text + "\", must be from 0 to " +
                              std::to_string(kMostCopies));
    }
    const fs::path folder = path_.parent_path();
    const std::string back = field("back");
    const NamedCard card{folder / field("front"), back.empty() ? fs::path() : folder / back};
    cards.insert(cards.end(), static_cast<std::size_t>(*copies), card);
  }

  fs::path path_;
  std::map<std::string, std::size_t> columns_;
};

std::vector<NamedCard> named_cards(const fs::path& fronts, const fs::path& back) {
  std::vector<NamedCard> cards;
  if (fs::is_directory(fronts)) {
    for (const fs::path& file : images_in(fronts)) cards.push_back({file, {}});
  } else if (has_image_name(fronts)) {
    cards.push_back({fronts, {}});
  } else {
    cards = CardList(fronts).read();
  }
  std::vector<fs::path> backs;
  if (!back.empty()) backs = fs::is_directory(back) ? images_in(back) : std::vector{back};
  if (backs.size() > 1 && backs.size() != cards.size()) {
    throw Error(back.string(), "holds " + std::to_string(backs.size()) + " backs for " +
                                   std::to_string(cards.size()) +
                                   " fronts. Give one back for all, or one for each front");
  }
  for (std::size_t i = 0; i < cards.size(); ++i) {
    if (!cards[i].back.empty()) continue;
    if (backs.empty()) {
      throw Error(cards[i].front.string(), "has no back. Name one in the list, or give --back");
    }
    cards[i].back = backs.size() == 1 ? backs[0] : backs[i];
  }
  return cards;
}

/// Reads every file once and keeps equal contents once.
class ImageStore {
 public:
  explicit ImageStore(std::vector<CodedImage>& images) : images_(images) {}

  std::size_t index(const fs::path& file) {
    const auto [known, is_new] = by_path_.try_emplace(file.lexically_normal().string(), 0);
    if (is_new) known->second = store(read_coded_image(file));
    return known->second;
  }

 private:
  std::size_t store(CodedImage image) {
    for (std::size_t i = 0; i < images_.size(); ++i) {
      const CodedImage& other = images_[i];
      if (other.data == image.data && other.coding == image.coding &&
          other.width_px == image.width_px && other.height_px == image.height_px &&
          other.icc_profile == image.icc_profile) {
        return i;
      }
    }
    images_.push_back(std::move(image));
    return images_.size() - 1;
  }

  std::vector<CodedImage>& images_;
  std::map<std::string, std::size_t> by_path_;
};

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

Deck read_deck(const fs::path& fronts, const fs::path& back, const Progress& progress) {
  if (!fs::exists(fronts)) throw Error(fronts.string(), "does not exist");
  if (!back.empty() && !fs::exists(back)) throw Error(back.string(), "does not exist");
  const std::vector<NamedCard> named = named_cards(fronts, back);
  Deck deck;
  ImageStore store(deck.images);
  for (std::size_t i = 0; i < named.size(); ++i) {
    tell(progress, static_cast<int>(i), static_cast<int>(named.size()), "reading images");
    const std::size_t front = store.index(named[i].front);
    deck.cards.push_back({front, store.index(named[i].back)});
  }
  return deck;
}

}  // namespace versolay
