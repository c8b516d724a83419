// The pages of an imposed job.
#pragma once

#include <string>
#include <vector>

#include "app/deck.h"
#include "layout/artwork_place.h"
#include "layout/cut_plan.h"
#include "pdf/pdf_document.h"
#include "versolay/result.h"

namespace versolay {

struct ImposedPagesRequest {
  const Deck& deck;
  const CardGrid& grid;
  const CutPlan& cuts;
  Paper paper;
  Turn turn = Turn::long_edge;
  double margin_mm = 5.0;
  double front_bleed_mm = 0.0;  // what the images have of their own
  double back_bleed_mm = 0.0;
  Reach oversize;
  Affine<VersoMm, VersoMm> page_from_wanted;
  bool guides = true;
  std::string job;
  std::string profile_name;  // empty: no profile
};

struct ImposedPages {
  std::vector<PdfPage> pages;  // recto, verso, recto, verso, ...
  Notices warnings;            // guides_incomplete, no_slug
};

/// Cells are filled row by row; cells left over on the last sheet stay empty on both sides. Guides
/// and a slug stand on the fronts, a slug on the backs; the whole back page goes through
/// page_from_wanted.
ImposedPages imposed_pages(const ImposedPagesRequest& request);

}  // namespace versolay
