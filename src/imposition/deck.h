// The cards of a job: which front goes with which back, and the artwork behind them.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/progress.h"
#include "pdf/pdf_document.h"

namespace versolay {

struct CardArt {
  std::size_t front = 0;  // indices into Deck::images
  std::size_t back = 0;
  std::string name{};
  std::string note{};
};

struct Deck {
  std::vector<CardArt> cards;
  std::vector<Artwork> images;  // each content once; the data of pictures are not kept in memory
};

/// `fronts`: a folder (all its pictures and the pages of its PDFs and TIFFs, sorted by name,
/// numbers by their value), one picture, one PDF or TIFF (every page a card), one page
/// ("cards.pdf#3"), or a list of cards: see read_card_list. A folder may hold folders instead:
/// groups of cards that share a back. `back`: one picture or page for all cards; a folder, PDF or
/// TIFF with one back for each front, in the same order; or, for groups, a folder with one back
/// named after each group. It may be empty when the list names the backs. Throws Error for files
/// that cannot be read, a list that cannot be understood, and backs that do not match the fronts in
/// number.
Deck read_deck(const std::filesystem::path& fronts, const std::filesystem::path& back,
               const Progress& progress);

/// The file behind an artwork, with the page if it has several.
std::string file_of(const Artwork& art);
/// All files that the artwork is read from: none of them may be written.
std::vector<std::filesystem::path> files_of(const Deck& deck);

}  // namespace versolay
