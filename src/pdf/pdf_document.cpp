#include "pdf/pdf_document.h"

#include <fmt/format.h>

#include <cassert>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>

#include "pdf/canvas.h"
#include "pdf/finish.h"
#include "pdf/image_object.h"
#include "pdf/page_matrix.h"
#include "versolay/result.h"

namespace versolay {
namespace {

/// Codes of the text are UTF-16 units, so the map to Unicode is the identity. libharu writes it
/// with the operators of another kind of map; some viewers then find no text to search or copy.
std::string identity_to_unicode() {
  std::string map =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  // A range may not cross the last byte, and a block has at most 100 ranges (ISO 32000-1, 9.10.3).
  for (int high = 0; high < 256; ++high) {
    if (high % 100 == 0) map += fmt::format("{} beginbfrange\n", std::min(100, 256 - high));
    map += fmt::format("<{0:02X}00> <{0:02X}FF> <{0:02X}00>\n", high);
    if (high % 100 == 99 || high == 255) map += "endbfrange\n";
  }
  return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

void repair_text_maps(QPDF& pdf) {
  QPDFObjectHandle map;
  for (auto object : pdf.getAllObjects()) {
    if (!object.isDictionaryOfType("/Font", "/Type0") || !object.hasKey("/ToUnicode")) continue;
    if (!map.isInitialized()) map = pdf.newStream(identity_to_unicode());
    object.replaceKey("/ToUnicode", map);
  }
}

/// Indirect image objects, made when they are first used.
class ImageObjects {
 public:
  ImageObjects(QPDF& pdf, const std::vector<CodedImage>& images)
      : pdf_(pdf), images_(images), objects_(images.size()) {}

  QPDFObjectHandle object(std::size_t index) {
    QPDFObjectHandle& object = objects_.at(index);
    if (!object.isInitialized()) object = image_object(pdf_, images_[index], profiles_);
    return object;
  }
  int orientation(std::size_t index) const { return images_.at(index).orientation; }

 private:
  QPDF& pdf_;
  const std::vector<CodedImage>& images_;
  std::vector<QPDFObjectHandle> objects_;
  ProfileObjects profiles_;
};

/// The content of a page between its matrix and the restoring of the state.
void compose(QPDF& pdf, QPDFObjectHandle page, const PdfPage& plan, ImageObjects& images) {
  const Affine<PdfPt, PageMm> pt_from_page = pt_from_page_mm(plan.paper);
  std::string before =
      "q\n" + matrix_operands(pt_from_page * plan.page_from_content * pt_from_page.inverse()) +
      " cm\n";
  auto resources = page.getKey("/Resources");
  auto xobjects = QPDFObjectHandle::newDictionary();
  for (const PlacedImage& placed : plan.images) {
    const std::string name = "/Im" + std::to_string(placed.image);
    xobjects.replaceKey(name, images.object(placed.image));
    before += image_content(placed, images.orientation(placed.image), pt_from_page, name);
  }
  if (!plan.images.empty()) resources.replaceKey("/XObject", xobjects);
  QPDFPageObjectHelper helper(page);
  helper.addPageContents(pdf.newStream(before), true);
  helper.addPageContents(pdf.newStream("\nQ\n"), false);
}

}  // namespace

std::string render_pdf(const PdfDocument& document) {
  assert(!document.pages.empty());
  HaruDocument haru;
  for (const PdfPage& page : document.pages) draw_page(haru, page.paper, page.drawing);
  const std::string drawn = haru.save();
  try {
    QPDF pdf;
    pdf.processMemoryFile("drawn pages", drawn.data(), drawn.size());
    repair_text_maps(pdf);
    auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    ImageObjects images(pdf, document.images);
    for (std::size_t i = 0; i < pages.size(); ++i) {
      compose(pdf, pages[i].getObjectHandle(), document.pages[i], images);
      set_page_boxes(pages[i].getObjectHandle(), document.pages[i].paper);
    }
    set_print_wishes(pdf, document.turn);
    set_information(pdf, document.title);
    return write_pdf(pdf);
  } catch (const std::runtime_error& e) {  // QPDFExc, QPDFSystemError
    throw Error("PDF", std::string("could not be finished: ") + e.what());
  }
}

}  // namespace versolay
