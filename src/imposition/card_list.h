// A list of cards: which pictures, how many of each.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace versolay {

/// A picture, or a page of a PDF or TIFF.
struct ArtFile {
  std::filesystem::path path;
  int page = 0;  // from 1; 0: not said
  bool operator==(const ArtFile&) const = default;
};

/// "cards.pdf#3": the third page of cards.pdf, unless a file of just that name is there.
ArtFile named_art(const std::filesystem::path& path);

/// One line of a list.
struct ListedCard {
  std::string name;  // the column card, or the name of the front's file
  int quantity = 1;
  ArtFile front;
  std::optional<ArtFile> back;
  std::string note;
  int line = 0;  // of the list
};

/// Reads a CSV file (see parse_csv). The first line names its columns out of card, quantity, front,
/// back, note, in any order; front must be there. Empty lines and lines that start with # are
/// skipped. Files are looked for beside the list, pages as named_art says.
/// Checks for all files before reading anything, and reports every fault with its line.
/// Throws Error for a list that cannot be understood or that names missing files.
std::vector<ListedCard> read_card_list(const std::filesystem::path& path);

}  // namespace versolay
