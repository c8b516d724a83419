// The cut card: a page to lie beside the cutter.
#pragma once

#include <string>

#include "layout/cut_plan.h"
#include "pdf/pdf_document.h"

namespace versolay {

struct CutCardRequest {
  std::string job;
  CardGrid grid;
  CutPlan plan;
  Paper sheet;                      // that is cut
  bool laminated_settings = false;  // the plan was stretched by a measured, laminated block
};

/// One page on A4, or on Letter when the job is on an American size: the sheet with its numbered
/// cuts, their order with fence settings, and what to be careful about, beside the step.
/// Throws Error as render_pdf does.
PdfPage cut_card_page(const CutCardRequest& request);

}  // namespace versolay
