// The sheets of a job, drawn.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "imposition/sheet_plan.h"
#include "imposition/waste_marks.h"
#include "pdf/pdf_document.h"

namespace versolay {

/// What the line in the waste says of a page: of which sheet, from 1, of how many, and which side.
using SlugWords = std::function<std::string(int sheet, int sheets, Side side)>;

/// What is printed in the waste, in the language of the person.
struct WasteWords {
  SlugWords slug;
  std::string marks;  // what the rings are for
};

struct DrawnSheets {
  std::vector<PdfPage> pages;          // recto, verso, recto, verso, ...
  std::vector<CardPlace> back_places;  // by cell, before the correction of the page
  std::optional<WasteMarks> marks;     // registration marks, where they were wanted and have room
  std::string run;                     // coded in them
  Notices warnings;                    // guides_incomplete, no_slug, no_registration_marks
};

/// Cells are filled row by row; cells left over on the last sheet stay empty on both sides. The
/// fronts get guides and a slug, the backs a slug; the correction applies to the whole back page,
/// including the registration marks and their caption. The run of the marks is derived from the
/// name of the job and the time.
DrawnSheets draw_sheets(const ImposeRequest& request, const Deck& deck, const SheetPlan& plan,
                        const WasteWords& words);

}  // namespace versolay
