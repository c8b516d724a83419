#include "pdf/reading_errors.h"

#include "core/translation.h"

namespace versolay {

Error unreadable_pdf(const std::string& file, std::string_view start, const QPDFExc& e) {
  const std::string detail = e.getMessageDetail();
  if (e.getErrorCode() == qpdf_e_password) {
    return Error(file, tr("is locked with a password. Save a copy without one"));
  }
  if (start.find("%PDF-") == std::string_view::npos) {
    return Error(file, tr("is not a PDF. Export it as PDF, or give pictures (PNG, JPEG, TIFF)"));
  }
  return Error(file, tr("is damaged or cut short ({}). Export or copy it again", detail));
}

}  // namespace versolay
