// The cut card, for use beside the cutter.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "imposition/card_thickness.h"
#include "layout/cut_plan.h"
#include "layout/guides.h"
#include "pdf/pdf_document.h"
#include "target/waste_drawing.h"

namespace versolay {

struct CutCardRequest {
  std::string job;
  CardGrid grid;
  CutPlan plan;
  Paper sheet;  // that is cut
  Turn turn = Turn::long_edge;
  bool laminated_settings = false;              // the plan was stretched by a measured scale
  GuideTicks ticks;                             // beside the guides of the first two edges
  std::optional<LookThroughSize> look_through;  // in the waste; nullopt: none
  std::optional<CardThickness> thickness;
};

/// On A4, or on Letter when the job is on an American size; one page, or more where there are many
/// cuts: the sheet with its numbered cuts, their order with fence settings, and what to be careful
/// about, beside the step. Throws Error as render_pdf does.
std::vector<PdfPage> cut_card_pages(const CutCardRequest& request);

}  // namespace versolay
