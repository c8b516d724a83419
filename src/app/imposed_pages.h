// The pages of an imposed job.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/back_edges.h"
#include "app/deck.h"
#include "app/waste_marks.h"
#include "layout/artwork_place.h"
#include "layout/cut_plan.h"
#include "layout/guides.h"
#include "pdf/pdf_document.h"
#include "versolay/result.h"

namespace versolay {

struct ImposedPagesRequest {
  const Deck& deck;
  const CardGrid& grid;
  const CutPlan& cuts;
  Paper paper;
  Turn turn = Turn::long_edge;
  Margins margins;
  ArtRules fronts;
  ArtRules backs;
  std::vector<BackEdge> back_edges;  // by image of the deck
  bool head_to_foot = false;         // backs stand on their head
  Reach oversize;
  Affine<VersoMm, VersoMm> page_from_wanted;
  std::vector<Eigen::Vector2d> cards_moved_mm{};  // each back by itself, before page_from_wanted;
                                                  // by cell, or empty
  bool guides = true;
  GuideTicks ticks;
  std::optional<std::string> marks_run;  // nullopt: no registration marks in the waste
  std::string job;
  std::string profile_name;  // empty: no profile
};

struct ImposedPages {
  std::vector<PdfPage> pages;          // recto, verso, recto, verso, ...
  std::vector<CardPlace> back_places;  // by cell, before page_from_wanted
  std::optional<WasteMarks> marks;
  Notices warnings;  // guides_incomplete, no_slug, no_marks
};

/// Cells are filled row by row; cells left over on the last sheet stay empty on both sides. Guides
/// and a slug stand on the fronts, a slug on the backs; the whole back page goes through
/// page_from_wanted, registration marks and all.
ImposedPages imposed_pages(const ImposedPagesRequest& request);

}  // namespace versolay
