// The command `correct`: a finished two-sided design, its backs moved so that they land right.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "versolay/profile.h"
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
  int pages = 0;              // of the output; 1 for an image
  int backs = 1;              // of them, corrected
  Registration correction;    // what the backs were moved by (R^-1 of the mean)
  std::optional<double> ppi;  // of the back image on the paper
  Notices warnings;
};

/// Writes `out`. A PDF or a pair of images becomes a PDF in which nothing is resampled; a pair
/// whose `out` ends in .png or .tif becomes the moved back image (the front needs no change),
/// resampled once, with its resolution and colour profile kept.
/// @fails  odd_pages, no_such_page, page_size, protected (see correct_back_pages); image_shape.
/// Throws Error on a bad request, an unreadable input or a failed write.
Result<CorrectReport> run_correct(const CorrectRequest& request);

}  // namespace versolay
