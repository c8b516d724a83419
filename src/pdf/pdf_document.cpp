#include "pdf/pdf_document.h"

#include <fmt/format.h>

#include <functional>
#include <map>
#include <memory>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>

#include "core/expect.h"
#include "pdf/canvas.h"
#include "pdf/correction_mark.h"
#include "pdf/findings.h"
#include "pdf/finish.h"
#include "pdf/image_object.h"
#include "pdf/page_form_source.h"
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

/// Indirect objects of images and pages, made when they are first used.
class ArtObjects {
 public:
  ArtObjects(QPDF& pdf, const std::vector<Artwork>& art)
      : pdf_(pdf), art_(art), objects_(art.size()) {}

  QPDFObjectHandle object(std::size_t index) {
    QPDFObjectHandle& object = objects_.at(index);
    if (!object.isInitialized()) {
      const auto* page = std::get_if<PageArt>(&art_[index]);
      object = page != nullptr ? source(page->file).unit_form(pdf_, page->page)
                               : image_object(pdf_, std::get<CodedImage>(art_[index]), profiles_);
    }
    return object;
  }
  QPDFObjectHandle colour_space(std::size_t index) {
    return versolay::colour_space(pdf_, std::get<CodedImage>(art_.at(index)), profiles_);
  }
  int orientation(std::size_t index) const {
    const auto* image = std::get_if<CodedImage>(&art_.at(index));
    return image != nullptr ? image->orientation : 1;
  }

 private:
  PageFormSource& source(const std::string& file) {
    auto& source = sources_[file];
    if (!source) source = std::make_unique<PageFormSource>(file);
    return *source;
  }

  QPDF& pdf_;
  const std::vector<Artwork>& art_;
  std::vector<QPDFObjectHandle> objects_;
  std::map<std::string, std::unique_ptr<PageFormSource>> sources_;
  ProfileObjects profiles_;
};

/// The content of a page between its matrix and the restoring of the state.
void compose(QPDF& pdf, QPDFObjectHandle page, const PdfPage& plan, ArtObjects& art) {
  const Affine<PdfPt, PageMm> pt_from_page = pt_from_page_mm(plan.paper);
  std::string before =
      "q\n" + matrix_operands(pt_from_page * plan.page_from_content * pt_from_page.inverse()) +
      " cm\n";
  auto resources = page.getKey("/Resources");
  auto spaces = QPDFObjectHandle::newDictionary();
  for (const ColourField& field : plan.fields) {
    const std::string name = "/Cs" + std::to_string(field.image);
    spaces.replaceKey(name, art.colour_space(field.image));
    before += field_content(field, pt_from_page, name);
  }
  auto xobjects = QPDFObjectHandle::newDictionary();
  for (const PlacedImage& placed : plan.images) {
    const std::string name = "/Im" + std::to_string(placed.image);
    xobjects.replaceKey(name, art.object(placed.image));
    before += image_content(placed, art.orientation(placed.image), pt_from_page, name);
  }
  if (!plan.fields.empty()) resources.replaceKey("/ColorSpace", spaces);
  if (!plan.images.empty()) resources.replaceKey("/XObject", xobjects);
  QPDFPageObjectHelper helper(page);
  helper.addPageContents(pdf.newStream(before), true);
  helper.addPageContents(pdf.newStream("\nQ\n"), false);
}

/// A PDF with the drawing of every page and nothing else.
std::string drawn_pages(const PdfDocument& document) {
  HaruDocument haru;
  for (const PdfPage& page : document.pages) draw_page(haru, page.paper, page.drawing);
  return haru.save();
}

/// Builds the document and hands it to `write` while everything that it refers to is alive.
void build(const PdfDocument& document, const std::function<void(QPDF&)>& write) {
  expect(!document.pages.empty());
  const std::string drawn = drawn_pages(document);
  try {
    QPDF pdf;
    pdf.processMemoryFile("drawn pages", drawn.data(), drawn.size());
    repair_text_maps(pdf);
    auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
    ArtObjects art(pdf, document.images);
    for (std::size_t i = 0; i < pages.size(); ++i) {
      compose(pdf, pages[i].getObjectHandle(), document.pages[i], art);
      set_page_boxes(pages[i].getObjectHandle(), document.pages[i].paper);
    }
    set_print_wishes(pdf, document.turn);
    set_information(pdf, document.title);
    if (document.backs_moved) mark_correction(pdf, *document.backs_moved);
    if (document.cards) note_cards(pdf, *document.cards);
    write(pdf);
  } catch (const Error&) {  // of an artwork file that is read while the PDF is written
    throw;
  } catch (const std::runtime_error& e) {  // QPDFExc, QPDFSystemError
    throw Error("PDF", findings::pdf_not_finished(e.what()));
  }
}

}  // namespace

std::string render_pdf(const PdfDocument& document) {
  std::string bytes;
  build(document, [&](QPDF& pdf) { bytes = write_pdf(pdf); });
  return bytes;
}

void write_pdf(const PdfDocument& document, std::FILE* file) {
  build(document, [&](QPDF& pdf) { write_pdf(pdf, file); });
}

}  // namespace versolay
