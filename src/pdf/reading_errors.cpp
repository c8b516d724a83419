#include "pdf/reading_errors.h"

#include <qpdf/QPDFExc.hh>
#include <stdexcept>

#include "core/translation.h"
#include "versolay/result.h"

namespace versolay {

namespace {

/// What qpdf says, in words of the person who made the file; empty where its own words must do.
std::string plain_reason(std::string_view detail) {
  const auto says = [&](const char* part) { return detail.find(part) != std::string_view::npos; };
  if (says("unsupported encryption filter") || says("unsupported encryption")) {
    return tr("it is encrypted in a way that cannot be read; save a copy without protection");
  }
  if (says("out of range") || says("overflow") || says("too large")) {
    return tr("one of its numbers is too large to make sense");
  }
  if (says("find trailer") || says("xref") || says("cross-reference")) {
    return tr("its table of contents is missing or wrong");
  }
  return {};
}

/// Of a PDF that was read so far and no further; `detail` is what the library said.
Error damaged_pdf(const std::string& file, const std::string& detail) {
  const std::string plain = plain_reason(detail);
  return Error(file, tr("is damaged or cut short ({}). Export or copy it again",
                        plain.empty() ? detail : plain));
}

Error unreadable_pdf(const std::string& file, std::string_view start, const QPDFExc& e) {
  const std::string detail = e.getMessageDetail();
  if (e.getErrorCode() == qpdf_e_password) {
    return Error(file, tr("is locked with a password. Save a copy without one"));
  }
  if (start.find("%PDF-") == std::string_view::npos) {
    return Error(file, tr("is not a PDF. Export it as PDF, or give pictures (PNG, JPEG, TIFF)"));
  }
  return damaged_pdf(file, detail);
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
    throw damaged_pdf(file, e.what());
  }
}

}  // namespace versolay
