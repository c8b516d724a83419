// The style sheet and the script of a report: report.css and report.js, built in.
#pragma once

#include <string_view>

namespace versolay {

extern const std::string_view kReportCss;
extern const std::string_view kReportJs;

}  // namespace versolay
