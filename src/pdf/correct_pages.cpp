#include "pdf/correct_pages.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <qpdf/QPDFAcroFormDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <utility>
#include <vector>

#include "core/numbers.h"
#include "pdf/correction_mark.h"
#include "pdf/findings.h"
#include "pdf/finish.h"
#include "pdf/page_form.h"
#include "pdf/page_matrix.h"
#include "pdf/reading_errors.h"
#include "pdf/unpacking_budget.h"

namespace versolay {
namespace {

constexpr double kSizeToleranceMm = 0.5;  // 595 x 842 pt is A4, rounded by 0.1 mm

QPDFObjectHandle mapped_box(const Affine<PdfPt, SourcePt>& map, const PdfBox& box) {
  const Point<PdfPt> a = map({box.llx, box.lly});
  const Point<PdfPt> b = map({box.urx, box.ury});
  return QPDFObjectHandle::newArray({pdf_real(std::min(a.x, b.x)), pdf_real(std::min(a.y, b.y)),
                                     pdf_real(std::max(a.x, b.x)), pdf_real(std::max(a.y, b.y))});
}

void correct_page(QPDF& pdf, QPDFPageObjectHelper page, const ShownPage& shown,
                  const Affine<VersoMm, VersoMm>& page_from_wanted, ContentBudget& budget) {
  QPDFObjectHandle dictionary = page.getObjectHandle();
  auto form = page_form(pdf, page, page.getMediaBox().getArrayAsRectangle(), budget);
  const Affine<PdfPt, PageMm> pt_from_page = pt_from_page_mm({"", shown.width_mm, shown.height_mm});
  const Affine<PdfPt, SourcePt> corrected = pt_from_page *
                                            relabel_affine<PageMm, PageMm>(page_from_wanted) *
                                            pt_from_page.inverse() * shown.shown_from_source;

  const auto& map = shown.shown_from_source;
  std::vector<std::pair<std::string, QPDFObjectHandle>> boxes = {
      {"/MediaBox", mapped_box(map, page.getMediaBox().getArrayAsRectangle())},
      {"/CropBox",
       QPDFObjectHandle::newArray({pdf_real(0), pdf_real(0), pdf_real(pt_from_mm(shown.width_mm)),
                                   pdf_real(pt_from_mm(shown.height_mm))})}};
  for (const char* name : {"/BleedBox", "/TrimBox", "/ArtBox"}) {
    auto box = dictionary.getKey(name);
    if (box.isRectangle()) boxes.emplace_back(name, mapped_box(map, box.getArrayAsRectangle()));
  }
  for (const auto& [name, box] : boxes) dictionary.replaceKey(name, box);
  dictionary.replaceKey("/Rotate", QPDFObjectHandle::newInteger(0));
  for (const char* name : {"/UserUnit", "/Annots", "/Thumb", "/StructParents"}) {
    dictionary.removeKey(name);
  }
  auto resources = QPDFObjectHandle::newDictionary();
  auto xobjects = QPDFObjectHandle::newDictionary();
  xobjects.replaceKey("/Fx0", form);
  resources.replaceKey("/XObject", xobjects);
  dictionary.replaceKey("/Resources", resources);
  dictionary.replaceKey("/Contents",
                        pdf.newStream("q " + matrix_operands(corrected) + " cm /Fx0 Do Q\n"));
}

std::optional<Refusal> size_refusal(const BackPagesRequest& r, std::size_t number,
                                    const ShownPage& page) {
  const auto close = [](double a, double b) { return std::abs(a - b) <= kSizeToleranceMm; };
  if (close(page.width_mm, r.paper.width_mm) && close(page.height_mm, r.paper.height_mm)) {
    return std::nullopt;
  }
  const bool across =
      close(page.width_mm, r.paper.height_mm) && close(page.height_mm, r.paper.width_mm);
  return findings::page_of_other_size(
      static_cast<std::int64_t>(number), r.file, Length{page.width_mm}, Length{page.height_mm},
      Length{r.paper.width_mm}, Length{r.paper.height_mm}, Term{across ? "across" : "no"});
}

/// Annotations that will not be seen in the output.
struct AnnotationsLeftOut {
  bool without_picture = false;  // they should print, but nothing can paint them
  bool screen_only = false;      // seen on a screen, not on paper
};

AnnotationsLeftOut annotations_left_out(std::vector<QPDFPageObjectHelper>& pages) {
  AnnotationsLeftOut out;
  for (QPDFPageObjectHelper& page : pages) {
    for (auto& annotation : page.getAnnotations()) {
      const std::string kind = annotation.getSubtype();
      if (kind == "/Link" || kind == "/Popup") continue;
      if ((annotation.getFlags() & an_print) == 0) {
        out.screen_only = true;
      } else if (!annotation.getAppearanceDictionary().isDictionary()) {
        out.without_picture = true;
      }
    }
  }
  return out;
}

/// The backs, as indices of pages: those of the request, or every second page.
Result<std::vector<std::size_t>> backs_of(const BackPagesRequest& r, std::size_t pages) {
  std::vector<std::size_t> backs;
  if (r.backs.empty()) {
    if (pages == 0 || pages % 2 != 0) {
      return findings::odd_pages(r.file, static_cast<std::int64_t>(pages));
    }
    for (std::size_t i = 1; i < pages; i += 2) backs.push_back(i);
    return backs;
  }
  for (int number : r.backs) {
    if (number < 1 || static_cast<std::size_t>(number) > pages) {
      return findings::no_such_page(r.file, static_cast<std::int64_t>(pages), number);
    }
    backs.push_back(static_cast<std::size_t>(number) - 1);
  }
  std::sort(backs.begin(), backs.end());
  backs.erase(std::unique(backs.begin(), backs.end()), backs.end());
  return backs;
}

Result<CorrectedPdf> corrected(const BackPagesRequest& r, UnpackingBudget& unpacking) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processMemoryFile(r.file.c_str(), r.bytes.data(), r.bytes.size());
  (void)pdf.getAllObjects();  // object streams are unpacked here and nowhere else
  CorrectedPdf result;
  if (pdf.isEncrypted()) {
    if (!pdf.allowModifyAll()) {
      return findings::protected_pdf(r.file);
    }
    result.warnings.push_back(findings::protection_dropped(r.file));
  }
  if (const auto moved = marked_correction(pdf)) {
    return findings::already_corrected(r.file, Length{moved->dx_mm}, Length{moved->dy_mm});
  }
  QPDFPageDocumentHelper document(pdf);
  auto pages = document.getAllPages();
  result.pages = static_cast<int>(pages.size());
  const auto backs = backs_of(r, pages.size());
  if (!backs) return backs.refusal();
  result.corrected = static_cast<int>(backs.value().size());
  if (pages.size() > kMostPages) {
    return findings::too_many_pages(r.file, static_cast<std::int64_t>(pages.size()),
                                    static_cast<std::int64_t>(kMostPages));
  }
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const ShownPage shown = shown_page(pages[i]);
    if (!(shown.width_mm > 0 && shown.height_mm > 0)) {
      return findings::page_without_size(static_cast<std::int64_t>(i + 1), r.file);
    }
    if (const auto refusal = size_refusal(r, i + 1, shown_page(pages[i]))) return *refusal;
  }
  QPDFAcroFormDocumentHelper form_fields(pdf);
  const bool drawn = form_fields.getNeedAppearances();
  form_fields.generateAppearancesIfNeeded();
  const AnnotationsLeftOut left_out = annotations_left_out(pages);
  require_few_annotations(pages, r.file);
  document.flattenAnnotations(an_print);
  unpacking.close();
  ContentBudget budget(r.file);
  for (const std::size_t i : backs.value()) {
    correct_page(pdf, pages[i], shown_page(pages[i]), r.page_from_wanted, budget);
  }
  set_print_wishes(pdf, r.turn);
  set_information(pdf, "");
  mark_correction(pdf, registration_from(r.page_from_wanted));
  result.bytes = write_pdf(pdf);
  if (drawn) {
    result.warnings.push_back(findings::form_fields_drawn(r.file));
  }
  if (left_out.screen_only) {
    result.warnings.push_back(findings::screen_annotations_left_out(r.file));
  }
  if (left_out.without_picture) {
    result.warnings.push_back(findings::annotation_lost(r.file));
  }
  if (pdf.anyWarnings()) {
    result.warnings.push_back(findings::damaged_input(r.file));
  }
  return result;
}

}  // namespace

Result<CorrectedPdf> correct_back_pages(const BackPagesRequest& request) {
  UnpackingBudget unpacking(request.file);
  try {
    return corrected(request, unpacking);
  } catch (const std::runtime_error&) {
    throw_reading_error(request.file, request.bytes, unpacking);
  }
}

}  // namespace versolay
