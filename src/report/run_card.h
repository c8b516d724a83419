// The run card of an experiment: which set-up comes next, to be ticked off beside the printer.
#pragma once

#include <span>
#include <string>

#include "profile/experiment_plan.h"

namespace versolay {

std::string run_card_text(const RunOrderRequest& request, std::span<const Run> runs);

/// The same as a PDF, A4, as many pages as it takes. Throws Error as render_pdf does.
std::string run_card_pdf(const RunOrderRequest& request, std::span<const Run> runs);

}  // namespace versolay
