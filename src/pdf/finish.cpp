#include "pdf/finish.h"

#include <qpdf/Buffer.hh>
#include <qpdf/QPDFWriter.hh>

#include "core/files.h"
#include "core/numbers.h"
#include "core/software.h"
#include "pdf/findings.h"
#include "versolay/result.h"

namespace versolay {
namespace {

QPDFObjectHandle name_object(const char* text) { return QPDFObjectHandle::newName(text); }

/// "2026-01-31T12:34:56Z" as a PDF date, "D:20260131123456Z" (ISO 32000-1, 7.9.4).
std::string pdf_date(const std::string& iso) {
  std::string digits;
  for (char c : iso) {
    if (c >= '0' && c <= '9') digits += c;
  }
  return "D:" + digits + "Z";
}

/// Files without a size in their trailer are repaired by readers; qpdf would copy the lack of it
/// (7.5.5 requires it; QPDFWriter fills in the number).
void complete_trailer(QPDF& pdf) {
  auto trailer = pdf.getTrailer();
  if (!trailer.hasKey("/Size")) trailer.replaceKey("/Size", QPDFObjectHandle::newInteger(1));
}

/// What was written must open without repairs, with all its pages.
void require_whole(QPDF& written, std::size_t pages) {
  if (!written.anyWarnings() && written.getAllPages().size() == pages) return;
  throw Error("", findings::pdf_does_not_open());
}

void write_with_settings(QPDFWriter& writer) {
  writer.setMinimumPDFVersion("1.7");
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setPreserveEncryption(false);  // does not go with an ID made from the content
  writer.setDeterministicID(true);
  writer.write();
}

}  // namespace

QPDFObjectHandle pdf_real(double value) {
  return QPDFObjectHandle::newReal(format_number(value, 9));
}

void set_page_boxes(QPDFObjectHandle page, const Paper& paper) {
  for (const char* box : {"/MediaBox", "/CropBox", "/BleedBox", "/TrimBox"}) {
    page.replaceKey(box, QPDFObjectHandle::newArray({pdf_real(0), pdf_real(0),
                                                     pdf_real(pt_from_mm(paper.width_mm)),
                                                     pdf_real(pt_from_mm(paper.height_mm))}));
  }
  page.replaceKey("/Rotate", QPDFObjectHandle::newInteger(0));
  page.removeKey("/UserUnit");
  page.removeKey("/ArtBox");
}

void set_print_wishes(QPDF& pdf, Turn turn) {
  auto preferences = QPDFObjectHandle::newDictionary();
  preferences.replaceKey("/PrintScaling", name_object("/None"));
  preferences.replaceKey("/Enforce", QPDFObjectHandle::newArray({name_object("/PrintScaling")}));
  preferences.replaceKey("/Duplex", name_object(turn == Turn::long_edge ? "/DuplexFlipLongEdge"
                                                                        : "/DuplexFlipShortEdge"));
  preferences.replaceKey("/PickTrayByPDFSize", QPDFObjectHandle::newBool(true));
  pdf.getRoot().replaceKey("/ViewerPreferences", preferences);
}

void set_information(QPDF& pdf, const std::string& title) {
  auto trailer = pdf.getTrailer();
  if (!trailer.getKey("/Info").isDictionary()) {
    trailer.replaceKey("/Info", pdf.makeIndirectObject(QPDFObjectHandle::newDictionary()));
  }
  auto info = trailer.getKey("/Info");
  const auto date = QPDFObjectHandle::newString(pdf_date(utc_now()));
  if (!title.empty()) info.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(title));
  info.replaceKey("/Producer", QPDFObjectHandle::newUnicodeString(kSoftware));
  info.replaceKey("/CreationDate", date);
  info.replaceKey("/ModDate", date);
}

std::string write_pdf(QPDF& pdf) {
  complete_trailer(pdf);
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  write_with_settings(writer);
  const std::shared_ptr<Buffer> bytes = writer.getBufferSharedPointer();
  std::string text(reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize());
  QPDF written;
  written.setSuppressWarnings(true);
  written.processMemoryFile("the PDF", text.data(), text.size());
  require_whole(written, pdf.getAllPages().size());
  return text;
}

void write_pdf(QPDF& pdf, std::FILE* file) {
  complete_trailer(pdf);
  {
    QPDFWriter writer(pdf, "the PDF", file, false);
    write_with_settings(writer);
  }
  std::fflush(file);
  QPDF written;
  written.setSuppressWarnings(true);
  written.processFile("the PDF", file, false);
  require_whole(written, pdf.getAllPages().size());
  std::fseek(file, 0, SEEK_END);
}

}  // namespace versolay
