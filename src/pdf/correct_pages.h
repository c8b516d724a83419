// Corrects the back pages of any PDF so that they land where they were meant.
#pragma once

#include <string>
#include <vector>

#include "versolay/frames.h"
#include "versolay/paper.h"
#include "versolay/result.h"

namespace versolay {

struct BackPagesRequest {
  std::string file;   // for messages
  std::string bytes;  // the PDF: front, back, front, back, ...
  Paper paper;        // of the profile; the pages must have this size, as they are shown
  Turn turn = Turn::long_edge;
  Affine<VersoMm, VersoMm> page_from_wanted;  // R^-1
  std::vector<int> backs{};                   // page numbers from 1; empty: 2, 4, 6, ...
};

struct CorrectedPdf {
  std::string bytes;
  int pages = 0;
  int corrected = 0;  // of them, the backs
  Notices warnings;   // damaged_input, protection_dropped, annotation_lost
};

/// The backs are painted through one matrix each, nothing in them is resampled or recoded.
/// The content of a page becomes a form whose clip is the MediaBox (so that bleed survives, and
/// patterns and masks move along); rotation, UserUnit and an offset origin are folded into the
/// matrix. Annotations that print become part of the pages. Print wishes as in set_print_wishes.
/// The output says in its metadata that it is corrected.
/// @fails  already_corrected; odd_pages; no_such_page; page_size (also: the page is at right
/// angles to the paper of the profile); protected. Throws Error for a file that is not a PDF, is
/// damaged beyond repair or locked by a password.
Result<CorrectedPdf> correct_back_pages(const BackPagesRequest& request);

}  // namespace versolay
