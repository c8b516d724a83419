#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/files.h"
#include "pdf/page_art.h"
#include "pdf/pdf_document.h"
#include "support/pdf_render.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::render_page;
using testing_support::RenderedPage;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

const Paper kPaper = parse_paper("210x297mm");
/// Marks of a card of 63 x 88 mm, from its middle; the first is larger.
const std::vector<Point<PageMm>> kMarks = {{-20, -30}, {22, -28}, {-21, 33}, {3, 5}};

class PageArtTest : public testing::Test {
 protected:
  /// A PDF of one card. `change` is put into the page dictionary by qpdf's own text format.
  void card_pdf(const std::string& change) {
    PdfPage page{{"card", 63.0, 88.0}, {}};
    for (const auto& p : kMarks) {
      page.drawing.push_back(Disc{p, p == kMarks[0] ? 2.0 : 1.5, 0.0, {}});
    }
    write_file_atomically(scratch_ / "plain.pdf", render_pdf({"card", Turn::long_edge, {page}}),
                          true);
    const std::string plain = "'" + (scratch_ / "plain.pdf").string() + "'";
    const std::string qdf = "'" + (scratch_ / "qdf.pdf").string() + "'";
    ASSERT_EQ(run("qpdf --qdf --object-streams=disable " + plain + " " + qdf).status, 0);
    std::string text = read_file(scratch_ / "qdf.pdf");
    const std::size_t rotate = text.find("/Rotate 0");
    ASSERT_NE(rotate, std::string::npos);
    text.replace(rotate, 9, change);
    write_file_atomically(scratch_ / "qdf.pdf", text, true);
    // fix-qdf mends the offsets.
    ASSERT_EQ(run("fix-qdf " + qdf + " > '" + (scratch_ / "card.pdf").string() + "'").status, 0);
  }

  /// The card at a place of an A4 page, through a matrix.
  RenderedPage placed(const PageArt& art, Renderer renderer, int quarter_turns = 0) {
    PdfPage page{kPaper, {}};
    page.images.push_back(
        {0, {30, -40}, art.width_mm, art.height_mm, quarter_turns, {-105, -148.5, 105, 148.5}});
    page.page_from_content = relabel_affine<PageMm, PageMm>(kMean.page_from_wanted());
    write_file_atomically(scratch_ / "job.pdf", render_pdf({"job", Turn::long_edge, {page}, {art}}),
                          true);
    EXPECT_EQ(run("qpdf --check '" + (scratch_ / "job.pdf").string() + "'").status, 0);
    return render_page(renderer, scratch_ / "job.pdf", 1, kPaper, 600);
  }

  void expect_marks(const RenderedPage& page, double gate_mm, int quarter_turns = 0) {
    for (const auto& mark : kMarks) {
      Eigen::Vector2d v = mark.vec();
      for (int i = 0; i < quarter_turns; ++i) v = Eigen::Vector2d(-v.y(), v.x());
      const Point<VersoMm> wanted{30 + v.x(), -40 + v.y()};
      const Point<VersoMm> at = kMean.page_from_wanted()(wanted);
      double area = 0;
      const Point<PageMm> found = page.centroid({at.x, at.y}, 3.0, &area);
      EXPECT_NEAR(found.x, at.x, gate_mm);
      EXPECT_NEAR(found.y, at.y, gate_mm);
      const double radius = mark == kMarks[0] ? 2.0 : 1.5;
      EXPECT_NEAR(area, M_PI * radius * radius, 0.1);
    }
  }

  const Registration kMean{0.431, -0.287, 1.7, 350, -220, 0.4};
  ScratchFolder scratch_;
};

// Gates: 0.5 um pdftocairo, 1 um mutool, as their own conventions allow on discs.
TEST_F(PageArtTest, IsPlacedToAMicrometreAndStaysVectors) {
  card_pdf("/Rotate 0");
  const auto art = read_page_art(scratch_ / "card.pdf");
  ASSERT_EQ(art.size(), 1U);
  EXPECT_NEAR(art[0].width_mm, 63, 1e-6);
  EXPECT_EQ(art[0].bleed_mm, 0);
  expect_marks(placed(art[0], Renderer::pdftocairo), 0.0005);
  expect_marks(placed(art[0], Renderer::mutool), 0.001);
  expect_marks(placed(art[0], Renderer::mutool, 3), 0.001, 3);
  EXPECT_THAT(run("pdfimages -list '" + (scratch_ / "job.pdf").string() + "' | wc -l").output,
              HasSubstr("2"));  // the heading only
}

TEST_F(PageArtTest, FoldsTheRotationOfThePageIn) {
  card_pdf("/Rotate 90");
  const auto art = read_page_art(scratch_ / "card.pdf");
  EXPECT_NEAR(art.at(0).width_mm, 88, 1e-6);
  EXPECT_NEAR(art.at(0).height_mm, 63, 1e-6);
  expect_marks(placed(art[0], Renderer::pdftocairo), 0.0005, 1);
}

TEST_F(PageArtTest, KnowsItsBleedByTheTrimBox) {
  card_pdf("/Rotate 0");
  const std::string qdf = "'" + (scratch_ / "qdf.pdf").string() + "'";
  std::string text = read_file(scratch_ / "qdf.pdf");
  const std::size_t trim = text.find("/TrimBox [");
  ASSERT_NE(trim, std::string::npos);
  const std::size_t end = text.find(']', trim);
  // 2 mm inside on three sides, 4 mm at the left: 5.669 and 11.339 pt.
  text.replace(trim, end - trim + 1, "/TrimBox [ 11.339 5.669 172.914 243.780 ]");
  write_file_atomically(scratch_ / "qdf.pdf", text, true);
  ASSERT_EQ(run("fix-qdf " + qdf + " > '" + (scratch_ / "card.pdf").string() + "'").status, 0);
  const auto art = read_page_art(scratch_ / "card.pdf");
  EXPECT_NEAR(art.at(0).bleed_mm, 2.0, 0.001);
  EXPECT_NEAR(art.at(0).width_mm, 61.0, 0.01);  // 57 mm and twice the bleed
}

TEST_F(PageArtTest, RefusesAPageWithoutSize) {
  for (const char* box : {"[0 0 0 0]", "[0 0 178 0.1]", "[900 900 990 990]"}) {
    card_pdf("/Rotate 0 /CropBox " + std::string(box));
    const std::string file = (scratch_ / "card.pdf").string();
    try {
      (void)read_page_art(file);
      ADD_FAILURE() << box;
    } catch (const Error& e) {
      EXPECT_THAT(e.what(), HasSubstr(file + "#1: art_page_without_size")) << box;
    }
  }
}

TEST_F(PageArtTest, RefusesNumbersThatFitNowhere) {
  card_pdf("/Rotate 0");
  std::string text = read_file(scratch_ / "card.pdf");
  const std::size_t start = text.rfind("startxref\n") + 10;
  text.replace(start, text.find('\n', start) - start, std::string(30, '9'));
  write_file_atomically(scratch_ / "card.pdf", text, true);
  try {
    (void)read_page_art(scratch_ / "card.pdf");
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("pdf_number_too_large"));
  }
}

TEST_F(PageArtTest, RefusesWhatIsNoPdf) {
  write_file_atomically(scratch_ / "x.pdf", "not a PDF at all", true);
  try {
    (void)read_page_art(scratch_ / "x.pdf");
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("not_a_pdf"));
  }
}

}  // namespace
}  // namespace versolay
