// What a rehearsal says: to a person what it means, to whoever asks for it every sheet with its
// truth.
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
