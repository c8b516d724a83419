#include "pdf/haru.h"

#include <fmt/format.h>

#include <new>
#include <vector>

#include "core/font_file.h"
#include "pdf/findings.h"
#include "versolay/result.h"

namespace versolay {

void HaruDocument::record(HPDF_STATUS code, HPDF_STATUS detail, void* failure) {
  auto* first = static_cast<Failure*>(failure);
  if (first->code == HPDF_OK) *first = {code, detail};
}

HaruDocument::HaruDocument() {
  document_ = HPDF_New(&HaruDocument::record, &failure_);
  if (document_ == nullptr) throw std::bad_alloc();
  HPDF_UseUTFEncodings(document_);
  HPDF_SetCompressionMode(document_, HPDF_COMP_TEXT);
  try {
    check("starting a document");
  } catch (...) {
    HPDF_Free(document_);
    throw;
  }
}

HaruDocument::~HaruDocument() { HPDF_Free(document_); }

void HaruDocument::check(const std::string& doing) const {
  if (failure_.code == HPDF_OK) return;
  if (failure_.code == HPDF_FAILD_TO_ALLOC_MEM) throw std::bad_alloc();
  throw Error("", findings::pdf_page_not_written(doing, fmt::format("0x{:04X}", failure_.code),
                                                 static_cast<std::int64_t>(failure_.detail)));
}

HPDF_Page HaruDocument::add_page(double width_pt, double height_pt) {
  const HPDF_Page page = HPDF_AddPage(document_);
  check("adding a page");
  HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width_pt));
  HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height_pt));
  check("setting the size of a page");
  return page;
}

HPDF_Font HaruDocument::font(bool bold) {
  HPDF_Font& font = fonts_[bold ? 1 : 0];
  if (font == nullptr) {
    const std::string file = font_file(bold).string();
    const char* name = HPDF_LoadTTFontFromFile(document_, file.c_str(), HPDF_TRUE);
    check("reading the font " + file);
    font = HPDF_GetFont(document_, name, "UTF-8");
    check("using the font " + file);
  }
  return font;
}

std::string HaruDocument::save() {
  HPDF_SaveToStream(document_);
  check("writing the pages");
  HPDF_ResetStream(document_);
  std::string bytes(HPDF_GetStreamSize(document_), '\0');
  HPDF_UINT32 size = static_cast<HPDF_UINT32>(bytes.size());
  HPDF_ReadFromStream(document_, reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  check("writing the pages");
  bytes.resize(size);
  return bytes;
}

}  // namespace versolay
