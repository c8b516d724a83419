// The outcome of a rehearsal: a summary for people, every sheet with its truth on request.
#pragma once

#include "app/rehearse.h"
#include "app/rehearse_job.h"
#include "cli/command.h"

namespace versolay::cli {

Outcome outcome_of(const RehearseRequest& request, const RehearseReport& report, bool verbose,
                   const DisplayUnit& unit);
Outcome outcome_of(const RehearseJobRequest& request, const RehearseJobReport& report, bool verbose,
                   const DisplayUnit& unit);

}  // namespace versolay::cli
