// What a report says, section by section.
#pragma once

#include "app/advise.h"
#include "report/document.h"

namespace versolay {

/// The sections of a report with an advice. `what_if` is shown as it is.
std::vector<Section> report_sections(const AdviseReport& report, WhatIfTable what_if,
                                     const std::string& next);

/// Those of a profile that allows no advice.
std::vector<Section> report_sections(const PrinterProfile& profile, const Refusal& refusal,
                                     const std::string& next);

}  // namespace versolay
