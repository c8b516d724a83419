// PDFs as other programs leave them, and as nobody would: what is written opens, what is lost is
// said, and nothing unpacks without bounds.
#define POINTERHOLDER_TRANSITION 4
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <zlib.h>

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "core/files.h"
#include "pdf/correct_pages.h"
#include "pdf/page_art.h"
#include "pdf/pdf_document.h"
#include "support/pdf_render.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing_support::render_page;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

const Paper kPaper = parse_paper("120x150mm");

std::string written(QPDF& pdf) {
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setStaticID(true);
  writer.setObjectStreamMode(qpdf_o_disable);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

/// Two pages, and `change` made to the second.
std::string two_pages(const std::function<void(QPDF&, QPDFPageObjectHelper&)>& change) {
  PdfPage page{kPaper, {}};
  page.drawing.push_back(Disc{{10, 10}, 2.0, 0.0, {}});
  const std::string bytes = render_pdf({"design", Turn::long_edge, {page, page}});
  QPDF pdf;
  pdf.processMemoryFile("plain", bytes.data(), bytes.size());
  auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
  change(pdf, pages[1]);
  return written(pdf);
}

BackPagesRequest request_for(std::string bytes) {
  BackPagesRequest request;
  request.file = "deck.pdf";
  request.bytes = std::move(bytes);
  request.paper = kPaper;
  request.turn = Turn::long_edge;
  request.page_from_wanted = Registration{0.3, -0.2, 1.0, 0, 0, 0}.page_from_wanted();
  return request;
}

std::vector<std::string> codes(const Notices& notices) {
  std::vector<std::string> list;
  for (const Notice& n : notices) list.push_back(n.code);
  return list;
}

// ISO 32000-1, 7.5.5: /Size is required. Readers repair a file without it, and qpdf copied the lack
// into a cross-reference stream, which nothing opens.
TEST(HostilePdf, ATrailerWithoutSizeComesOutWithOne) {
  std::string bytes = two_pages([](QPDF&, QPDFPageObjectHelper&) {});
  const std::size_t trailer = bytes.rfind("trailer");
  const std::size_t size = bytes.find("/Size", trailer);
  ASSERT_NE(size, std::string::npos);
  for (std::size_t i = size; bytes[i] != '/' || i == size; ++i) {
    if (bytes[i] == '>') break;
    bytes[i] = ' ';
  }
  const auto result = correct_back_pages(request_for(bytes));
  ASSERT_TRUE(result);
  ScratchFolder scratch;
  write_file_atomically(scratch / "out.pdf", result.value().bytes, true);
  const auto check = run("qpdf --check '" + (scratch / "out.pdf").string() + "'");
  EXPECT_EQ(check.status, 0) << check.output;
  EXPECT_EQ(run("mutool info '" + (scratch / "out.pdf").string() + "'").status, 0);
}

/// A text field without a picture of itself, in a form whose viewer is to draw it.
void add_text_field(QPDF& pdf, QPDFPageObjectHelper& page) {
  auto field = pdf.makeIndirectObject(QPDFObjectHandle::parse(
      "<< /Type /Annot /Subtype /Widget /FT /Tx /T (bird) /V (HERON HERON) /F 4 "
      "/Rect [60 200 260 240] /DA (/Helv 24 Tf 0 g) >>"));
  page.getObjectHandle().replaceKey("/Annots", QPDFObjectHandle::newArray({field}));
  auto form = QPDFObjectHandle::parse(
      "<< /NeedAppearances true /DA (/Helv 24 Tf 0 g) /DR << /Font << /Helv << /Type /Font "
      "/Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >> >> >> >>");
  form.replaceKey("/Fields", QPDFObjectHandle::newArray({field}));
  pdf.getRoot().replaceKey("/AcroForm", pdf.makeIndirectObject(form));
}

TEST(HostilePdf, FormFieldsWithoutTheirPictureAreDrawnAndSaid) {
  const auto result = correct_back_pages(request_for(two_pages(add_text_field)));
  ASSERT_TRUE(result);
  EXPECT_THAT(codes(result.value().warnings), Contains("form_fields_drawn"));
  ScratchFolder scratch;
  write_file_atomically(scratch / "out.pdf", result.value().bytes, true);
  const auto text = run("pdftotext -f 2 -l 2 '" + (scratch / "out.pdf").string() + "' -");
  EXPECT_THAT(text.output, HasSubstr("HERON"));
}

TEST(HostilePdf, WhatShowsOnAScreenOnlyIsSaidToBeLeftOut) {
  const auto with_note = [](QPDF& pdf, QPDFPageObjectHelper& page) {
    page.getObjectHandle().replaceKey(
        "/Annots",
        QPDFObjectHandle::newArray({pdf.makeIndirectObject(QPDFObjectHandle::parse(
            "<< /Type /Annot /Subtype /Text /Contents (look) /Rect [10 10 30 30] >>"))}));
  };
  const auto result = correct_back_pages(request_for(two_pages(with_note)));
  ASSERT_TRUE(result);
  EXPECT_THAT(codes(result.value().warnings), Contains("screen_annotations_left_out"));
}

std::string deflated(const std::string& bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::string packed(size, '\0');
  compress(reinterpret_cast<Bytef*>(packed.data()), &size,
           reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uLong>(bytes.size()));
  packed.resize(size);
  return packed;
}

/// 160 MB of blanks, packed twice: some 2 KB.
void add_bomb(QPDF& pdf, QPDFPageObjectHelper& page) {
  auto stream = pdf.newStream();
  stream.replaceStreamData(deflated(deflated(std::string(160u << 20, ' '))),
                           QPDFObjectHandle::parse("[/FlateDecode /FlateDecode]"),
                           QPDFObjectHandle::newNull());
  page.getObjectHandle().replaceKey("/Contents", stream);
}

TEST(HostilePdf, ContentThatUnpacksWithoutBoundsIsRefused) {
  QPDF pdf;
  pdf.emptyPDF();
  auto page = pdf.makeIndirectObject(QPDFObjectHandle::parse(
      "<< /Type /Page /MediaBox [0 0 340.157 425.197] /Resources << >> >>"));
  QPDFPageObjectHelper helper(page);
  add_bomb(pdf, helper);
  QPDFPageDocumentHelper(pdf).addPage(helper, false);
  QPDFPageDocumentHelper(pdf).addPage(helper, false);
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setDecodeLevel(qpdf_dl_none);
  writer.setCompressStreams(false);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  const std::string bytes(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
  ASSERT_LT(bytes.size(), 20000u);
  try {
    (void)correct_back_pages(request_for(bytes));
    ADD_FAILURE() << "160 MB were taken";
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("too_much_drawn"));
  }
}

}  // namespace
}  // namespace versolay
