// A report as a PDF: the same sections and figures, without a browser.
#pragma once

#include "pdf/pdf_document.h"
#include "report/document.h"

namespace versolay {

/// Pages of that paper (at least 200 mm wide), figures two beside each other, their numbers in
/// tables at the end. Everything is black and grey. Throws Error as render_pdf does.
PdfDocument pdf_of(const ReportDocument& document, const Paper& paper);

}  // namespace versolay
