// A report as one web page that needs nothing else.
#pragma once

#include <string>

#include "report/document.h"

namespace versolay {

/// One HTML document: figures as inline SVG, style sheet and script inside, no address of anything
/// outside. Without scripts the what-if control is the table that it looks up.
std::string html_of(const ReportDocument& document);

}  // namespace versolay
