// Title, subtitle and colophon of a report.
#pragma once

#include <string>

#include "report/document.h"
#include "versolay/printer_profile.h"

namespace versolay {

/// @param profile_file  name of the file that the profile is from.
void add_head(const PrinterProfile& profile, const std::string& profile_file,
              ReportDocument& document);

}  // namespace versolay
