#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/correct.h"
#include "artwork/raster.h"
#include "pdf/pdf_document.h"
#include "support/findings.h"
#include "support/image_files.h"
#include "support/pdf_render.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::render_page;
using testing_support::RenderedPage;
using testing_support::Renderer;
using testing_support::ScratchFolder;

const Paper kPaper = parse_paper("120x150mm");
const Registration kMean{0.431, -0.287, 1.7, 350, -220, 0.4};
const std::vector<Point<PageMm>> kMarks = {{-40, -55}, {40, -50}, {3, 1}, {-40, 52}, {42, 55}};

class CorrectTest : public testing::Test {
 protected:
  CorrectTest() {
    request_.profile.paper = kPaper;
    request_.profile.turn = Turn::long_edge;
    request_.profile.mean = kMean;
  }

  /// A page with the marks, as an image of the whole page.
  Raster page_image(int dpi) {
    PdfPage page{kPaper, {}};
    for (const auto& p : kMarks) page.drawing.push_back(Disc{p, 2.0, 0.0, {}});
    write_file_atomically(scratch_ / "marks.pdf",
                          render_pdf({"marks", Turn::long_edge, {page, page}}), true);
    Raster r = testing_support::render(Renderer::mutool, scratch_ / "marks.pdf", 1, dpi);
    r.ppi_x = r.ppi_y = dpi;
    return r;
  }

  double mean_error_mm(const RenderedPage& page, const Affine<VersoMm, VersoMm>& map) {
    double sum = 0;
    for (const auto& mark : kMarks) {
      const Point<VersoMm> place = map({mark.x, mark.y});
      sum += (page.centroid({place.x, place.y}, 3.0).vec() - place.vec()).norm();
    }
    return sum / static_cast<double>(kMarks.size());
  }

  ScratchFolder scratch_;
  CorrectRequest request_;
};

TEST_F(CorrectTest, MovesTheBackPagesOfAPdf) {
  (void)page_image(50);
  request_.input = scratch_ / "marks.pdf";
  request_.out = scratch_ / "out.pdf";
  const auto report = run_correct(request_);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(report.value().kind, CorrectedKind::pdf_from_pdf);
  EXPECT_EQ(report.value().pages, 2);
  EXPECT_LT(report.value().correction.dx_mm, 0);  // it landed too far right: it goes left
  const auto page = render_page(Renderer::mutool, request_.out, 2, kPaper);
  EXPECT_LT(mean_error_mm(page, kMean.page_from_wanted()), 0.001);
}

TEST_F(CorrectTest, ResamplesABackImageOnceAndKeepsResolutionAndProfile) {
  Raster image = page_image(508);  // 2400 x 3000 px: 0.05 mm each
  image.icc_profile = testing_support::tiny_icc_profile("GRAY");
  write_file_atomically(scratch_ / "back.png", encode_png(image), false);
  write_file_atomically(scratch_ / "front.png", encode_png(image), false);
  request_.input = scratch_ / "front.png";
  request_.back = scratch_ / "back.png";
  request_.out = scratch_ / "moved.png";
  const auto report = run_correct(request_);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(report.value().kind, CorrectedKind::image_from_image);
  const Raster moved = read_raster(request_.out);
  EXPECT_EQ(moved.width_px, image.width_px);
  EXPECT_NEAR(moved.ppi_x.value(), 508, 0.02);
  EXPECT_EQ(moved.icc_profile, image.icc_profile);
  EXPECT_LT(mean_error_mm({moved, kPaper, 508}, kMean.page_from_wanted()), 0.003);
}

TEST_F(CorrectTest, PlacesAPairOfImagesInAPdfWithoutResampling) {
  const Raster image = page_image(254);  // 1200 x 1500 px
  const std::string jpeg = testing_support::jpeg_bytes(image);
  write_file_atomically(scratch_ / "front.jpg", jpeg, false);
  write_file_atomically(scratch_ / "back.jpg", jpeg, false);
  request_.input = scratch_ / "front.jpg";
  request_.back = scratch_ / "back.jpg";
  request_.out = scratch_ / "pair.pdf";
  const auto report = run_correct(request_);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(report.value().kind, CorrectedKind::pdf_from_images);
  EXPECT_DOUBLE_EQ(report.value().ppi.value(), 254);
  // Renderers move upright pictures to whole pixels of their own: up to half of one, 21 um at 600
  // dpi, in each direction.
  for (const Renderer renderer : {Renderer::pdftocairo, Renderer::mutool}) {
    EXPECT_LT(mean_error_mm(render_page(renderer, request_.out, 1, kPaper), {}), 0.03);
    EXPECT_LT(
        mean_error_mm(render_page(renderer, request_.out, 2, kPaper), kMean.page_from_wanted()),
        0.02);
  }
  EXPECT_THAT(read_file(request_.out), HasSubstr(jpeg));
}

TEST_F(CorrectTest, RefusesAnImageThatIsNotAWholePage) {
  write_file_atomically(scratch_ / "card.png",
                        encode_png(testing_support::test_picture(630, 880, 3)), false);
  request_.input = scratch_ / "card.png";
  request_.back = scratch_ / "card.png";
  request_.out = scratch_ / "moved.png";
  const auto report = run_correct(request_);
  ASSERT_FALSE(report.ok());
  EXPECT_EQ(report.refusal().code, "image_shape");
  EXPECT_FALSE(std::filesystem::exists(request_.out));
}

TEST_F(CorrectTest, WritesATiffAndKeepsSixteenBits) {
  Raster image = page_image(254);
  for (auto& s : image.samples) s = static_cast<std::uint16_t>(s * 257);
  image.bits = 16;
  image.icc_profile = testing_support::tiny_icc_profile("GRAY");
  write_file_atomically(scratch_ / "back.tif", encode_tiff(image), false);
  request_.input = scratch_ / "back.tif";
  request_.back = scratch_ / "back.tif";
  request_.out = scratch_ / "moved.tif";
  request_.ppi = 254;
  const auto report = run_correct(request_);
  ASSERT_TRUE(report.ok());
  Raster moved = read_raster(request_.out);
  EXPECT_EQ(moved.bits, 16);
  EXPECT_EQ(moved.icc_profile, image.icc_profile);
  EXPECT_NEAR(moved.ppi_x.value(), 254, 0.01);
  for (auto& s : moved.samples) s = static_cast<std::uint16_t>(s / 257);
  EXPECT_LT(mean_error_mm({moved, kPaper, 254}, kMean.page_from_wanted()), 0.005);
  request_.replace = true;
  request_.ppi = 300;  // 1200 px are not 120 mm at 300 ppi
  const auto wrong = run_correct(request_);
  ASSERT_FALSE(wrong.ok());
  EXPECT_EQ(wrong.refusal().code, "image_shape");
  EXPECT_EQ(testing_support::fact<std::int64_t>(wrong.refusal(), "page_width_px"), 1417);
  EXPECT_EQ(testing_support::fact<std::int64_t>(wrong.refusal(), "page_height_px"), 1772);
}

TEST_F(CorrectTest, CorrectsThePagesThatAreNamed) {
  (void)page_image(50);
  request_.input = scratch_ / "marks.pdf";
  request_.out = scratch_ / "out.pdf";
  request_.backs = {1};
  const auto report = run_correct(request_);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(report.value().backs, 1);
  const auto first = render_page(Renderer::mutool, request_.out, 1, kPaper);
  const auto second = render_page(Renderer::mutool, request_.out, 2, kPaper);
  EXPECT_LT(mean_error_mm(first, kMean.page_from_wanted()), 0.001);
  EXPECT_LT(mean_error_mm(second, {}), 0.001);
  request_.backs = {3};
  request_.replace = true;
  EXPECT_EQ(run_correct(request_).refusal().code, "no_such_page");
}

TEST_F(CorrectTest, AsksForAnOutputThatFitsTheInput) {
  (void)page_image(50);
  request_.input = scratch_ / "marks.pdf";
  request_.out = scratch_ / "out.png";
  EXPECT_THROW((void)run_correct(request_), Error);
  request_.back = scratch_ / "marks.pdf";
  request_.out = scratch_ / "out.jpg";
  EXPECT_THROW((void)run_correct(request_), Error);
}

}  // namespace
}  // namespace versolay
