// A note in a PDF of cards: the positions of its backs and the extent of their artwork. It allows a
// print of the file to be judged from the file alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/drawing.h"

class QPDF;

namespace versolay {

/// The back of one cell, on the back page before the correction.
struct CardBack {
  PageRect card;                       // directly behind the front
  Eigen::Vector2d moved_mm{0.0, 0.0};  // of the artwork, individually
  PageRect covered;                    // by this artwork, or by a neighbour's that looks the same
};

struct CardsNote {
  int cards = 0;                // of the job: cell by cell, sheet by sheet
  std::vector<CardBack> backs;  // by cell, the same on every sheet
};

/// Into the information dictionary.
void note_cards(QPDF& pdf, const CardsNote& note);

/// nullopt: the note is missing, or cannot be read.
/// Throws Error when the file is not a PDF, damaged or locked.
std::optional<CardsNote> noted_cards(const std::string& bytes, const std::string& file);

}  // namespace versolay
