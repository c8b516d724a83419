#include "pdf/reading_errors.h"

#include <qpdf/QPDFExc.hh>
#include <stdexcept>

#include "pdf/findings.h"
#include "versolay/result.h"

namespace versolay {

namespace {

/// Of a PDF that was read so far and no further; `detail` is what qpdf said.
Finding damage(const std::string& detail) {
  const auto says = [&](const char* part) { return detail.find(part) != std::string::npos; };
  if (says("unsupported encryption")) return findings::pdf_encryption_unknown();
  if (says("out of range") || says("overflow") || says("too large")) {
    return findings::pdf_number_too_large();
  }
  if (says("find trailer") || says("xref") || says("cross-reference")) {
    return findings::pdf_index_damaged();
  }
  return findings::pdf_damaged(detail);
}

Error unreadable_pdf(const std::string& file, std::string_view start, const QPDFExc& e) {
  const std::string detail = e.getMessageDetail();
  if (e.getErrorCode() == qpdf_e_password) {
    return Error(file, findings::pdf_locked());
  }
  if (start.find("%PDF-") == std::string_view::npos) {
    return Error(file, findings::not_a_pdf());
  }
  return Error(file, damage(detail));
}

}  // namespace

void throw_reading_error(const std::string& file, std::string_view start,
                         const UnpackingBudget& unpacking) {
  try {
    throw;
  } catch (const Error&) {
    throw;
  } catch (const QPDFExc& e) {
    unpacking.require_kept();
    throw unreadable_pdf(file, start, e);
  } catch (const std::runtime_error& e) {  // a number that fits nowhere
    unpacking.require_kept();
    throw Error(file, damage(e.what()));
  }
}

}  // namespace versolay
