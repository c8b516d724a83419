// Pages of a PDF as the artwork of cards, up to the PDF that they are painted in.
#include <qpdf/QPDF.hh>

#include "memory_file.h"
#include "pdf/page_art.h"
#include "pdf/pdf_document.h"
#include "versolay/result.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace versolay;
  const testing_support::MemoryFile file(data, size);
  try {
    const auto pages = read_page_art(file.path());
    for (const PageArt& page : pages) {
      if (!(page.width_mm > 0 && page.height_mm > 0 && page.bleed_mm >= 0)) std::abort();
    }
    PdfPage sheet{{"A4", 210, 297}, {}};
    sheet.images.push_back({0, {0, 0}, 63, 88, 0, {-31, -44, 31, 44}});
    PdfDocument document{"cards", Turn::long_edge, {sheet}, {pages.front()}};
    const std::string written = render_pdf(document);
    QPDF again;
    again.setSuppressWarnings(true);
    again.processMemoryFile("written", written.data(), written.size());
  } catch (const Error&) {
  }
  return 0;
}
