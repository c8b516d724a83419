#define POINTERHOLDER_TRANSITION 4
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "pdf/correct_pages.h"
#include "pdf/finish.h"
#include "pdf/pdf_document.h"
#include "support/findings.h"
#include "support/image_files.h"
#include "support/message_of.h"
#include "support/pdf_render.h"
#include "versolay/registration.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::fact;
using testing_support::render_page;
using testing_support::RenderedPage;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

const Paper kPaper = parse_paper("120x150mm");
constexpr double kW = 120.0 * 72 / 25.4;  // pt
constexpr double kH = 150.0 * 72 / 25.4;
const Registration kMean{0.431, -0.287, 1.7, 350, -220, 0.4};
const std::vector<Point<PageMm>> kMarks = {{-45, -60}, {45, -58}, {3, 1}, {-40, 62}, {47, 55}};

/// Two pages with the same marks, made by this program's own writer.
std::string plain_pages() {
  PdfPage page{kPaper, {}};
  for (const auto& p : kMarks) page.drawing.push_back(Disc{p, 2.0, 0.0, {}});
  return render_pdf({"design", Turn::long_edge, {page, page}});
}

using Change = std::function<void(QPDF&, QPDFPageObjectHelper&)>;

/// The plain pages with `change` made to the second one.
std::string changed_pages(const Change& change) {
  const std::string bytes = plain_pages();
  QPDF pdf;
  pdf.processMemoryFile("plain", bytes.data(), bytes.size());
  auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
  change(pdf, pages[1]);
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setStaticID(true);
  writer.setObjectStreamMode(qpdf_o_disable);  // a plain table of objects, which can be repaired
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

void wrap(QPDF& pdf, QPDFPageObjectHelper& page, const std::string& before,
          const std::string& after) {
  page.addPageContents(pdf.newStream(before), true);
  page.addPageContents(pdf.newStream(after), false);
}

void set_box(QPDFPageObjectHelper& page, const char* name, double x0, double y0, double x1,
             double y1) {
  page.getObjectHandle().replaceKey(
      name, QPDFObjectHandle::newArray(QPDFObjectHandle::Rectangle(x0, y0, x1, y1)));
}

void only_media_box(QPDFPageObjectHelper& page, double x0, double y0, double x1, double y1) {
  for (const char* name : {"/CropBox", "/BleedBox", "/TrimBox"}) {
    page.getObjectHandle().removeKey(name);
  }
  set_box(page, "/MediaBox", x0, y0, x1, y1);
}

std::string text(double v) { return std::to_string(v) + " "; }

/// The same page as shown, stored in another way: the stored content is the plain one moved by the
/// inverse of what the viewer does, written down by hand for each case.
struct Case {
  const char* name;
  Change change;
};

void PrintTo(const Case& c, std::ostream* out) { *out << c.name; }

const Case kCases[] = {
    {"plain", [](QPDF&, QPDFPageObjectHelper&) {}},
    {"rotate_90",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       // Shown turned clockwise: shown (x, y) is stored at (H - y, x).
       wrap(pdf, page, "q 0 1 -1 0 " + text(kH) + "0 cm\n", "\nQ");
       only_media_box(page, 0, 0, kH, kW);
       page.getObjectHandle().replaceKey("/Rotate", QPDFObjectHandle::newInteger(90));
     }},
    {"rotate_180",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       wrap(pdf, page, "q -1 0 0 -1 " + text(kW) + text(kH) + "cm\n", "\nQ");
       page.getObjectHandle().replaceKey("/Rotate", QPDFObjectHandle::newInteger(180));
     }},
    {"rotate_270",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       wrap(pdf, page, "q 0 -1 1 0 0 " + text(kW) + "cm\n", "\nQ");
       only_media_box(page, 0, 0, kH, kW);
       page.getObjectHandle().replaceKey("/Rotate", QPDFObjectHandle::newInteger(-90));
     }},
    {"user_unit_2",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       wrap(pdf, page, "q 0.5 0 0 0.5 0 0 cm\n", "\nQ");
       only_media_box(page, 0, 0, kW / 2, kH / 2);
       page.getObjectHandle().replaceKey("/UserUnit", QPDFObjectHandle::newInteger(2));
     }},
    {"offset_origin_with_crop_and_trim",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       wrap(pdf, page, "q 1 0 0 1 130 -70 cm\n", "\nQ");
       set_box(page, "/MediaBox", 100, -100, 160 + kW, -40 + kH);
       set_box(page, "/CropBox", 130, -70, 130 + kW, -70 + kH);
       set_box(page, "/TrimBox", 150, -50, 110 + kW, -90 + kH);
     }},
    {"offset_origin_and_rotate_90",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       wrap(pdf, page, "q 0 1 -1 0 " + text(kH + 50) + "20 cm\n", "\nQ");
       only_media_box(page, 50, 20, 50 + kH, 20 + kW);
       page.getObjectHandle().replaceKey("/Rotate", QPDFObjectHandle::newInteger(90));
     }},
    {"surplus_restores_and_missing_ones",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       wrap(pdf, page, "Q Q q\n", "\nq q 9 0 0 9 0 0 cm");
     }},
    {"split_and_inherited",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       auto object = page.getObjectHandle();
       auto parent = object.getKey("/Parent");
       parent.replaceKey("/Resources", object.getKey("/Resources"));
       object.removeKey("/Resources");
       parent.replaceKey("/MediaBox", object.getKey("/MediaBox"));
       object.removeKey("/MediaBox");
       wrap(pdf, page, "q", "Q");
     }},
    {"annotation",
     [](QPDF& pdf, QPDFPageObjectHelper& page) {
       // The last mark is taken off the page and put back as a stamp.
       const double x = kW / 2 + kMarks[4].x * 72 / 25.4;
       const double y = kH / 2 - kMarks[4].y * 72 / 25.4;
       const double r = 2.0 * 72 / 25.4;
       const std::string rect = text(x - 2 * r) + text(y - 2 * r) + text(4 * r) + text(4 * r);
       wrap(pdf, page, "", "\nq 1 g " + rect + "re f Q");
       auto stamp = pdf.newStream("0 g 0 0 " + text(2 * r) + text(2 * r) + "re f");
       stamp.getDict().replaceKey("/Type", QPDFObjectHandle::newName("/XObject"));
       stamp.getDict().replaceKey("/Subtype", QPDFObjectHandle::newName("/Form"));
       stamp.getDict().replaceKey(
           "/BBox", QPDFObjectHandle::newArray(QPDFObjectHandle::Rectangle(0, 0, 2 * r, 2 * r)));
       auto annotation = pdf.makeIndirectObject(
           QPDFObjectHandle::parse("<< /Type /Annot /Subtype /Stamp /F 4 /AP << >> >>"));
       annotation.replaceKey("/Rect", QPDFObjectHandle::newArray(
                                          QPDFObjectHandle::Rectangle(x - r, y - r, x + r, y + r)));
       annotation.getKey("/AP").replaceKey("/N", stamp);
       page.getObjectHandle().replaceKey("/Annots", QPDFObjectHandle::newArray({annotation}));
     }},
};

class CorrectPagesTest : public testing::TestWithParam<std::tuple<Case, Renderer>> {
 protected:
  void SetUp() override {
    if (!testing_support::has_program(program(renderer())))
      GTEST_SKIP() << "renderer not installed";
  }
  Renderer renderer() const { return std::get<1>(GetParam()); }

  /// Mean distance of the marks on a page from where `map` puts them, um.
  double mean_error_um(Renderer renderer, const std::string& bytes, int page,
                       const Affine<VersoMm, VersoMm>& map) {
    const auto file = scratch_ / "pages.pdf";
    write_file_atomically(file, bytes, true);
    EXPECT_EQ(run("qpdf --check '" + file.string() + "'").status, 0);
    const RenderedPage rendered = render_page(renderer, file, page, kPaper);
    double sum = 0;
    for (const auto& mark : kMarks) {
      const Point<VersoMm> place = map({mark.x, mark.y});
      sum += (rendered.centroid({place.x, place.y}, 3.0).vec() - place.vec()).norm();
    }
    return sum / static_cast<double>(kMarks.size()) * 1e3;
  }
  ScratchFolder scratch_;
};

TEST_P(CorrectPagesTest, MarksLandWhereTheInverseRegistrationSays) {
  const std::string input = changed_pages(std::get<0>(GetParam()).change);
  // First the input itself: the case must really show the plain page. (Poppler knows no UserUnit
  // and shows nothing after surplus restores, so only mutool is asked.)
  ASSERT_LT(mean_error_um(Renderer::mutool, input, 2, {}), 1.0);
  const auto result =
      correct_back_pages({"design.pdf", input, kPaper, Turn::long_edge, kMean.page_from_wanted()});
  ASSERT_TRUE(result.ok()) << result.refusal();
  EXPECT_EQ(result.value().pages, 2);
  EXPECT_THAT(result.value().warnings, testing::IsEmpty());
  EXPECT_LT(mean_error_um(renderer(), result.value().bytes, 1, {}), 1.0);  // the front stays
  EXPECT_LT(mean_error_um(renderer(), result.value().bytes, 2, kMean.page_from_wanted()), 1.0);
}

INSTANTIATE_TEST_SUITE_P(Cases, CorrectPagesTest,
                         testing::Combine(testing::ValuesIn(kCases),
                                          testing::Values(Renderer::pdftocairo, Renderer::mutool)),
                         [](const auto& p) {
                           return std::string(std::get<0>(p.param).name) + "_" +
                                  program(std::get<1>(p.param));
                         });

BackPagesRequest request(std::string bytes) {
  return {"design.pdf", std::move(bytes), kPaper, Turn::short_edge, kMean.page_from_wanted()};
}

TEST(CorrectBackPages, KeepsBleedOutsideTheShownPage) {
  // A mark in the bleed, 3 mm beyond the left edge of the CropBox, comes into view when the back
  // moves right by 6 mm.
  const std::string input = changed_pages([](QPDF& pdf, QPDFPageObjectHelper& page) {
    const double bleed = 5.0 * 72 / 25.4;
    wrap(pdf, page, "",
         "\n0 g " + text(-4 * 72 / 25.4) + text(kH / 2 - 3) + text(2 * 72 / 25.4) + "6 re f");
    set_box(page, "/MediaBox", -bleed, -bleed, kW + bleed, kH + bleed);
    set_box(page, "/TrimBox", 0, 0, kW, kH);
  });
  BackPagesRequest r = request(input);
  r.page_from_wanted = {Eigen::Matrix2d::Identity(), {6.0, 0.0}};
  const auto result = correct_back_pages(r);
  ASSERT_TRUE(result.ok());
  const ScratchFolder scratch;
  write_file_atomically(scratch / "bleed.pdf", result.value().bytes, false);
  const RenderedPage page =
      render_page(Renderer::pdftocairo, scratch / "bleed.pdf", 2, kPaper, 150);
  EXPECT_EQ(page.ink_at({-60 + 3, 0}), 1.0);
}

TEST(CorrectBackPages, AsksThePrintDialogueToLeaveThePagesAlone) {
  const auto result = correct_back_pages(request(plain_pages()));
  ASSERT_TRUE(result.ok());
  const ScratchFolder scratch;
  write_file_atomically(scratch / "a.pdf", result.value().bytes, false);
  const std::string wishes =
      run("mutool show '" + (scratch / "a.pdf").string() + "' trailer/Root/ViewerPreferences")
          .output;
  EXPECT_THAT(wishes, HasSubstr("/PrintScaling /None"));
  EXPECT_THAT(wishes, HasSubstr("/DuplexFlipShortEdge"));
}

std::string changed(const std::string& bytes, const std::function<void(QPDF&)>& change) {
  QPDF pdf;
  pdf.processMemoryFile("a.pdf", bytes.data(), bytes.size());
  change(pdf);
  return write_pdf(pdf);
}

TEST(CorrectBackPages, RefusesWhatIsCorrectedAlready) {
  const auto once = correct_back_pages(request(plain_pages()));
  ASSERT_TRUE(once.ok());
  const auto twice = correct_back_pages(request(once.value().bytes));
  ASSERT_FALSE(twice.ok());
  EXPECT_EQ(twice.refusal().code, "already_corrected");
  const Registration moved = registration_from(kMean.page_from_wanted());
  EXPECT_NEAR(testing_support::fact<double>(twice.refusal(), "moved_right_mm"), moved.dx_mm, 1e-5);
  // Programs that rewrite a PDF often drop what is not theirs in one place, not in both.
  const std::string without_info =
      changed(once.value().bytes, [](QPDF& pdf) { pdf.getTrailer().removeKey("/Info"); });
  EXPECT_FALSE(correct_back_pages(request(without_info)).ok());
  const std::string without_piece =
      changed(once.value().bytes, [](QPDF& pdf) { pdf.getRoot().removeKey("/PieceInfo"); });
  EXPECT_FALSE(correct_back_pages(request(without_piece)).ok());
  const std::string without_either =
      changed(without_piece, [](QPDF& pdf) { pdf.getTrailer().removeKey("/Info"); });
  EXPECT_TRUE(correct_back_pages(request(without_either)).ok());
}

TEST(CorrectBackPages, DoesNotTouchTheBytesOfImages) {
  const ScratchFolder scratch;
  const std::string jpeg =
      testing_support::jpeg_bytes(testing_support::test_picture(120, 90, 3), true);
  write_file_atomically(scratch / "bird.jpg", jpeg, false);
  PdfDocument document{"photo", Turn::long_edge, {{kPaper, {}}, {kPaper, {}}}};
  document.images = {read_coded_image(scratch / "bird.jpg")};
  for (PdfPage& page : document.pages) page.images = {{0, {0, 0}, 60, 45, 0, {-60, -75, 60, 75}}};
  const auto result = correct_back_pages(request(render_pdf(document)));
  ASSERT_TRUE(result.ok());
  write_file_atomically(scratch / "a.pdf", result.value().bytes, false);
  ASSERT_EQ(run("pdfimages -all '" + (scratch / "a.pdf").string() + "' '" +
                (scratch / "out").string() + "'")
                .status,
            0);
  EXPECT_EQ(read_file(scratch / "out-001.jpg"), jpeg);
}

TEST(CorrectBackPages, RefusesAnOddNumberOfPages) {
  PdfDocument document{"one", Turn::long_edge, {{kPaper, {}}}};
  const auto result = correct_back_pages(request(render_pdf(document)));
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.refusal().code, "odd_pages");
}

TEST(CorrectBackPages, RefusesPagesOfAnotherSizeAndSaysWhenTheyLieAcross) {
  BackPagesRequest r = request(plain_pages());
  r.paper = parse_paper("a4");
  EXPECT_EQ(correct_back_pages(r).refusal().code, "page_size");
  const Finding other_size = correct_back_pages(r).refusal();
  EXPECT_NEAR(fact<double>(other_size, "width_mm"), 120, 1e-3);
  EXPECT_NEAR(fact<double>(other_size, "height_mm"), 150, 1e-3);
  r.paper = parse_paper("150x120mm");
  EXPECT_NEAR(fact<double>(correct_back_pages(r).refusal(), "profile_width_mm"), 150, 1e-9);
}

std::string refusal_of(const std::string& bytes) {
  return testing_support::message_of([&] { (void)correct_back_pages(request(bytes)); });
}

TEST(CorrectBackPages, SaysWhatIsWrongWithAFileThatIsNotAPdf) {
  EXPECT_THAT(refusal_of(""), HasSubstr("not_a_pdf"));
  EXPECT_THAT(refusal_of("\x89PNG whatever"), HasSubstr("not_a_pdf"));
  EXPECT_THAT(refusal_of(plain_pages().substr(0, 400)), HasSubstr("pdf_index_damaged"));
}

std::string encrypted(const char* user, bool may_change) {
  const std::string bytes = plain_pages();
  QPDF pdf;
  pdf.processMemoryFile("plain", bytes.data(), bytes.size());
  QPDFWriter writer(pdf);
  writer.setOutputMemory();
  writer.setR6EncryptionParameters(user, "owner", true, true, may_change, may_change, may_change,
                                   may_change, qpdf_r3p_full, true);
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

TEST(CorrectBackPages, RespectsPasswordsAndProtection) {
  EXPECT_THAT(refusal_of(encrypted("secret", true)), HasSubstr("pdf_locked"));
  const auto locked = correct_back_pages(request(encrypted("", false)));
  ASSERT_FALSE(locked.ok());
  EXPECT_EQ(locked.refusal().code, "protected");
  const auto open = correct_back_pages(request(encrypted("", true)));
  ASSERT_TRUE(open.ok());
  ASSERT_EQ(open.value().warnings.size(), 1U);
  EXPECT_EQ(open.value().warnings[0].code, "protection_dropped");
}

TEST(CorrectBackPages, SaysWhenAFileHadToBeRepaired) {
  std::string bytes = changed_pages([](QPDF&, QPDFPageObjectHelper&) {});
  bytes.replace(bytes.rfind("startxref"), 9, "startxxxx");
  const auto result = correct_back_pages(request(bytes));
  ASSERT_TRUE(result.ok());
  ASSERT_FALSE(result.value().warnings.empty());
  EXPECT_EQ(result.value().warnings[0].code, "damaged_input");
}

}  // namespace
}  // namespace versolay
