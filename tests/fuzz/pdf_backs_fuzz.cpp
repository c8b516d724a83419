// Somebody else's PDF whose back pages are moved: what is written can be opened and has as many
// pages.
#include <Eigen/Geometry>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include "pdf/correct_pages.h"
#include "pdf/page_form.h"
#include "versolay/result.h"

namespace {

using namespace versolay;

/// As large as the first page, so that mutations of boxes do not end at the check of the size.
Paper paper_of(const std::string& bytes) {
  try {
    QPDF pdf;
    pdf.setSuppressWarnings(true);
    pdf.processMemoryFile("input", bytes.data(), bytes.size());
    auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    if (!pages.empty()) {
      const ShownPage shown = shown_page(pages.front());
      return {"custom", shown.width_mm, shown.height_mm};
    }
  } catch (const std::exception&) {
  }
  return {"A4", 210, 297};
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(reinterpret_cast<const char*>(data), size);
  BackPagesRequest request;
  request.file = "input.pdf";
  request.bytes = bytes;
  request.paper = paper_of(bytes);
  request.page_from_wanted = {Eigen::Rotation2Dd(0.001).toRotationMatrix(), {0.4, -0.3}};
  try {
    const Result<CorrectedPdf> corrected = correct_back_pages(request);
    if (!corrected) return 0;
    QPDF again;
    again.setSuppressWarnings(true);
    const std::string& written = corrected.value().bytes;
    again.processMemoryFile("written", written.data(), written.size());
    const auto pages = QPDFPageDocumentHelper(again).getAllPages();
    if (pages.size() != static_cast<std::size_t>(corrected.value().pages)) std::abort();
  } catch (const Error&) {
  }
  return 0;
}
