// PDF files of scanned pages: the one picture of a page, in the pixels of the scanner.
//
// A page is never rendered: a renderer resamples, and that moves marks by a fair part of a pixel.
// The picture is taken out as it is: JPEG data byte for byte, everything else unpacked without
// loss.
#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "core/numbers.h"
#include "scan/decoders.h"
#include "scan/findings.h"
#include "scan/pdf_pages.h"

namespace versolay::scan {
namespace {

constexpr int kMostPages = 1000;
constexpr int kPagesLookedAt = 20;   // of a file that may hold no scans at all; 45 ms each
constexpr double kLeastCover = 0.9;  // of the page's width and height

/// The last line of a PDF is "%%EOF"; readers look for it in the last 1024 bytes.
/// Source  ISO 32000-1:2008, 7.5.5, and the implementation note to it in the PDF Reference 1.7,
/// H.3.
bool has_end_mark(const InputFile& file) {
  std::array<char, 1024> end;
  const std::int64_t n = std::min<std::int64_t>(file.size(), end.size());
  if (std::fseek(file.handle(), static_cast<long>(-n), SEEK_END) != 0) return false;
  const std::size_t read = std::fread(end.data(), 1, static_cast<std::size_t>(n), file.handle());
  std::rewind(file.handle());
  return std::string_view(end.data(), read).find("%%EOF") != std::string_view::npos;
}

/// Throws Error unless the file has pages, and not too many.
PdfFacts facts_of(const Place& place) {
  const PdfFacts facts = pdf_facts(place);
  if (facts.pages <= 0) throw Error(place.text(), findings::scanned_pdf_without_pages());
  if (facts.pages > kMostPages) {
    throw Error(place.text(), findings::scanned_pdf_too_long(facts.pages, kMostPages));
  }
  return facts;
}

PdfPicture only_picture(const Place& place) {
  const std::vector<PdfPicture> pictures = pictures_on_pages(place, place.page, place.page);
  if (pictures.empty()) throw Error(place.text(), findings::scanned_page_empty());
  if (pictures.size() > 1) {
    throw Error(place.text(),
                findings::scanned_page_of_pictures(static_cast<std::int64_t>(pictures.size())));
  }
  const PdfPicture& p = pictures.front();
  if (p.masked) throw Error(place.text(), findings::scanned_page_masked());
  if (p.cmyk || p.components == 4) throw Error(place.text(), findings::scan_in_cmyk());
  return p;
}

/// The resolution of a picture that fills the page; throws Error when it does not.
void set_page_resolution(Scan& scan, const Place& place, const PdfPicture& picture,
                         const PdfPageSize& page) {
  if (!(page.width_pt > 0.0 && page.height_pt > 0.0)) {
    throw Error(place.text(), findings::scanned_pdf_without_page_size());
  }
  if (picture.ppi_x <= 0.0 || picture.ppi_y <= 0.0) return;
  // Along the rows and columns of the picture, which may lie sideways on the page.
  const double across_pt = picture.width_px * kPtPerInch / picture.ppi_x;
  const double down_pt = picture.height_px * kPtPerInch / picture.ppi_y;
  const bool sideways = (across_pt > down_pt) != (page.width_pt > page.height_pt);
  const double page_across = sideways ? page.height_pt : page.width_pt;
  const double page_down = sideways ? page.width_pt : page.height_pt;
  if (across_pt < kLeastCover * page_across || down_pt < kLeastCover * page_down) {
    throw Error(place.text(), findings::scanned_page_partly_covered(Share{across_pt / page_across},
                                                                    Share{down_pt / page_down}));
  }
  // ppi_x is rounded; the size of the page gives it exactly when the picture fits the page.
  const auto refined = [](double rounded, int pixels, double pt) {
    const double exact = pixels * kPtPerInch / pt;
    return std::abs(exact - rounded) <= 0.51 ? exact : rounded;
  };
  set_dpi(scan, refined(picture.ppi_x, picture.width_px, page_across),
          refined(picture.ppi_y, picture.height_px, page_down));
}

}  // namespace

int count_pdf_pages(const InputFile& file, const Place& place) {
  if (!has_end_mark(file)) throw Error(place.text(), findings::scanned_pdf_without_end());
  const int pages = facts_of(place).pages;
  const int looked_at = std::min(pages, kPagesLookedAt);
  if (pages > 1 && pictures_on_pages(place, 1, looked_at).empty()) {
    throw Error(place.text(), findings::scanned_pdf_without_pictures(looked_at));
  }
  return pages;
}

Scan decode_pdf(const InputFile& pdf, Place place, const ScanLimits& limits) {
  if (!has_end_mark(pdf)) throw Error(place.text(), findings::scanned_pdf_without_end());
  const PdfFacts facts = facts_of({place.path});
  place.pages = facts.pages;
  check_page(place);
  const PdfPicture picture = only_picture(place);
  check_size(place, picture.width_px, picture.height_px, 8 * std::max(picture.components, 1),
             limits);

  Scan scan = decode_picture(place, picture, limits);
  if (scan.grey.width != picture.width_px || scan.grey.height != picture.height_px) {
    throw Error(place.text(), findings::scanned_pdf_picture_differs());
  }
  set_page_resolution(scan, place, picture, place.page == 1 ? facts.size : facts_of(place).size);
  return scan;
}

}  // namespace versolay::scan
