// The command `correct`: a finished two-sided design, its backs moved so that they land right.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "layout/grid.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"
#include "versolay/result.h"

namespace versolay {

/// Either `input` alone (a PDF: front, back, front, back, ...), or `input` and `back`: two images,
/// each of a whole page.
struct CorrectRequest {
  std::filesystem::path input;
  std::optional<std::filesystem::path> back;
  PrinterProfile profile;
  std::vector<int> backs;     // pages of a PDF that are backs, from 1; empty: 2, 4, 6, ...
  std::optional<double> ppi;  // of the images; nullopt: they cover the page
  /// The cards on the pages, to say how far their artwork must reach; nullopt: not said.
  std::optional<CardSize> card;
  std::optional<GridShape> grid;  // nullopt: as many as fit
  double gutter_mm = 0.0;
  Margins margins;
  std::filesystem::path out;
  bool replace = false;
};

enum class CorrectedKind {
  pdf_from_pdf,      // pages through a matrix
  pdf_from_images,   // images placed through a matrix, as they were coded
  image_from_image,  // the back resampled once
};

struct CorrectReport {
  CorrectedKind kind = CorrectedKind::pdf_from_pdf;
  int pages = 0;                          // of the output; 1 for an image
  int backs = 1;                          // of them, corrected
  Registration correction;                // what the backs were moved by (R^-1 of the mean)
  std::optional<double> ppi;              // of the back image on the paper
  std::optional<Oversize> reach;          // beyond the cut; nullopt: not asked, or not known
  std::optional<SharedCuts> shared_cuts;  // where the pages leave less room between cards
  Notices warnings;
};

/// Writes `out`. A PDF or a pair of images becomes a PDF in which nothing is resampled; a pair
/// whose `out` ends in .png or .tif becomes the moved back image (the front needs no change),
/// resampled once, with its resolution and colour profile kept. Where cards are given, a page whose
/// artwork ends before it reaches far enough is a warning.
/// @fails  odd_pages, no_such_page, page_size, protected (see correct_back_pages); image_shape.
/// Throws Error on a bad request, an unreadable input or a failed write.
Result<CorrectReport> run_correct(const CorrectRequest& request);

}  // namespace versolay
