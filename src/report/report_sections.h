// The content of a report, section by section.
#pragma once

#include "report/document.h"
#include "versolay/advice.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// The sections of a report with an advice. `what_if` is shown as it is.
std::vector<Section> report_sections(const PrinterProfile& profile, const Advice& advice,
                                     WhatIfTable what_if, const std::string& next);

/// Those of a profile that allows no advice.
std::vector<Section> report_sections(const PrinterProfile& profile, const Refusal& refusal,
                                     const std::string& next);

}  // namespace versolay
