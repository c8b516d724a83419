// The command `impose`: cards on sheets, fronts and corrected backs, ready to print.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/progress.h"
#include "imposition/card_thickness.h"
#include "imposition/impose_request.h"
#include "imposition/sheet_plan.h"
#include "target/waste_drawing.h"
#include "versolay/result.h"

namespace versolay {

struct ImposeReport {
  SheetPlan plan;
  std::string run;  // coded in the registration marks; empty: no marks
  LookThroughSize look_through;
  std::optional<CardThickness> thickness;
  std::vector<std::filesystem::path> preview;  // files that were written
  Notices warnings;

  Registration correction() const { return registration_from(plan.correction.page_from_wanted); }
};

/// Writes the PDF (recto, verso, recto, verso, ...) and the cut card.
/// @fails  as plan_sheets.
/// Throws Error on a bad request, unreadable images or a failed write.
Result<ImposeReport> run_impose(const ImposeRequest& request, const Progress& progress);

}  // namespace versolay
