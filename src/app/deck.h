// The cards of a job: which front goes with which back, and the image files behind them.
#pragma once

#include <filesystem>
#include <vector>

#include "app/progress.h"
#include "artwork/coded_image.h"

namespace versolay {

struct CardArt {
  std::size_t front = 0;  // indices into Deck::images
  std::size_t back = 0;
};

struct Deck {
  std::vector<CardArt> cards;
  std::vector<CodedImage> images;  // files with the same content stand here once
};

/// `fronts`: a folder (all its JPEG and PNG files, sorted by name, numbers by their value), one
/// image, or a list: a text file whose first line names its columns out of front, back, copies,
/// separated by commas; one card a line; files are looked for beside the list.
/// `back`: one image for all cards, or a folder with one image for each front, in the same order.
/// It may be empty when the list names the backs.
/// Throws Error for files that cannot be read, a list that cannot be understood, and backs that do
/// not match the fronts in number.
Deck read_deck(const std::filesystem::path& fronts, const std::filesystem::path& back,
               const Progress& progress);

/// Order of file names as people mean it: card2 before card10.
bool natural_less(const std::string& a, const std::string& b);

}  // namespace versolay
