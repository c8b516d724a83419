// `impose --preview`: what the finished cards will look like, at life size.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "imposition/deck.h"
#include "layout/artwork_place.h"
#include "pdf/pdf_document.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"
#include "versolay/result.h"

namespace versolay {

/// How far the back of a card lands beside its cut, verso page, mm.
struct BackMisses {
  Eigen::Vector2d typical_mm{0.0, 0.0};  // half of the cards miss by less, in either direction
  Eigen::Vector2d worst_mm{0.0, 0.0};    // at the promised share of the cards: the oversize
};

/// Of the cell that is worst off by the advice, among the first `cards` cells: a sheet that is not
/// full has no card in the others. The misses are those that remain after the correction.
/// Precondition: cards > 0.
struct PreviewCell {
  std::size_t index = 0;  // of the grid
  BackMisses misses;
};
PreviewCell worst_cell(const PrinterProfile& profile, const Advice& advice, TurnAxis axis,
                       std::size_t cards);

struct PreviewRequest {
  const Deck& deck;
  const PdfPage& recto;  // of the first sheet
  const PdfPage& verso;
  CardPlace front;  // of the cell to be shown
  CardPlace back;
  BackMisses misses;
  std::string band;  // said below back-band.png
  double corner_radius_mm = 0.0;
  std::filesystem::path folder;
  bool replace = false;
};

/// Writes front.png, back-best.png (no error), back-typical.png, back-worst.png, and back-band.png:
/// the back with a striped band between the innermost and the outermost place where the cut may
/// fall, all of it to be seen, above the words that say so. 300 ppi, said in the files, so that
/// they print at life size. Returns the files; none (and a notice) when the artwork is a PDF or
/// CMYK, whose pixels are not read. Throws Error when a file cannot be written.
std::vector<std::filesystem::path> write_preview(const PreviewRequest& request, Notices& notices);

}  // namespace versolay
