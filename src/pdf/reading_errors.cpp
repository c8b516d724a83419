#include "pdf/reading_errors.h"

namespace versolay {

Error unreadable_pdf(const std::string& file, std::string_view start, const QPDFExc& e) {
  const std::string detail = e.getMessageDetail();
  if (e.getErrorCode() == qpdf_e_password) {
    return Error(file, "is locked with a password. Save a copy without one");
  }
  if (start.find("%PDF-") == std::string_view::npos) {
    return Error(file, "is not a PDF. Export it as PDF, or give pictures (PNG, JPEG, TIFF)");
  }
  return Error(file, "is damaged or cut short (" + detail + "). Export or copy it again");
}

}  // namespace versolay
