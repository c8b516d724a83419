// Backs for a job whose fronts are already printed and scanned: each page is moved by what the
// front of its sheet needs.
#pragma once

#include "imposition/sheet_plan.h"

namespace versolay {

/// @param plan  of the same job as when its fronts were printed.
/// @fails  no_fronts, fronts_of_another_layout, fronts_of_several_runs, front_beyond_deck,
///         fronts_laid_out_differently: the fronts are not those of this job; fitting_does_not_pay:
///         fitted backs would need as much oversize; and as fitted_backs() and advise().
/// Throws Error without a profile.
Result<FittedSheets> fitted_sheets(const ImposeRequest& request, const SheetPlan& plan);

/// Numbers of the sheets that get the correction of the job, because their front was not read.
std::vector<int> sheets_not_fitted(const SheetPlan& plan);

}  // namespace versolay
