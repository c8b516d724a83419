// A note in a PDF of cards, of where its backs lie and how far their artwork reaches. With it a
// print of the file can be judged that is given without anything else.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/drawing.h"

class QPDF;

namespace versolay {

/// The back of one cell, on the back page before the correction.
struct CardBack {
  PageRect card;                       // straight behind the front
  Eigen::Vector2d moved_mm{0.0, 0.0};  // the artwork, by itself
  PageRect covered;                    // by this artwork, or by a neighbour's that looks alike
};

struct CardsNote {
  int cards = 0;                // of the job: cell by cell, sheet by sheet
  std::vector<CardBack> backs;  // by cell, the same on every sheet
};

/// Into the information dictionary.
void note_cards(QPDF& pdf, const CardsNote& note);

/// nullopt: there is no such note, or it cannot be read.
/// Throws Error when the file is no PDF, damaged or locked.
std::optional<CardsNote> noted_cards(const std::string& bytes, const std::string& file);

}  // namespace versolay
