#include "pdf/pdf_document.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "pdf/fonts.h"
#include "pdf/text_block.h"
#include "support/pdf_render.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {
namespace {

using testing::HasSubstr;
using testing_support::render_page;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

const Paper kSmall = parse_paper("120x150mm");

class PdfDocumentTest : public testing::Test {
 protected:
  std::filesystem::path write(const PdfDocument& document) {
    const auto file = scratch_ / "document.pdf";
    write_file_atomically(file, render_pdf(document), true);
    return file;
  }
  std::string shown(const std::filesystem::path& file, const std::string& path) {
    return run("mutool show '" + file.string() + "' " + path).output;
  }
  /// The operators of the first page, its content streams put together.
  std::string content(const std::filesystem::path& file) {
    const auto whole = scratch_ / "whole.pdf";
    run("qpdf --coalesce-contents '" + file.string() + "' '" + whole.string() + "'");
    return shown(whole, "-b pages/1/Contents");
  }
  ScratchFolder scratch_;
};

class GeometryTest : public PdfDocumentTest, public testing::WithParamInterface<Renderer> {
 protected:
  void SetUp() override {
    if (!testing_support::has_program(program(GetParam())))
      GTEST_SKIP() << "renderer not installed";
  }
};

// The gates are those of the renderers: both are known to place a disc within 0.5 um on average.
TEST_P(GeometryTest, DiscsAndRingsLandWhereTheyWerePlannedOnA4) {
  const Paper paper = parse_paper("a4");
  std::vector<Disc> discs;
  for (int i = 0; i < 5; ++i) {
    for (int j = 0; j < 6; ++j) {
      discs.push_back({{-92.0 + 45.637 * i, -135.0 + 53.421 * j}, 2.5, i % 2 ? 2.1 : 0.0, {}});
    }
  }
  PdfDocument document{"discs", Turn::long_edge, {{paper, {}}}};
  for (const Disc& d : discs) document.pages[0].drawing.push_back(d);
  const auto page = render_page(GetParam(), write(document), 1, paper);

  double sum = 0;
  Eigen::Vector2d bias(0, 0);
  for (const Disc& d : discs) {
    double area = 0;
    const Eigen::Vector2d error = page.centroid(d.centre, 3.5, &area).vec() - d.centre.vec();
    bias += error / static_cast<double>(discs.size());
    sum += error.norm();
    const double expected =
        M_PI * (std::pow(d.outer_radius_mm, 2) - std::pow(d.inner_radius_mm, 2));
    EXPECT_NEAR(area, expected, 0.01 * expected);
  }
  const double mean_um = sum / static_cast<double>(discs.size()) * 1e3;
  RecordProperty("mean_um", std::to_string(mean_um));
  EXPECT_LT(mean_um, 1.0);
  EXPECT_LT(bias.norm() * 1e3, 1.0);
}

TEST_P(GeometryTest, TheMatrixOfAPageMovesItsContent) {
  const Registration r{0.431, -0.287, 1.7, 350, -220, 0.4};
  PdfPage page{kSmall, {}};
  std::vector<Point<PageMm>> places;
  for (double x : {-45.0, 0.0, 45.0}) {
    for (double y : {-60.0, 0.0, 60.0}) {
      places.push_back({x, y});
      page.drawing.push_back(Disc{{x, y}, 2.0, 0.0, {}});
    }
  }
  page.page_from_content = relabel_affine<PageMm, PageMm>(r.page_from_wanted());
  const auto rendered =
      render_page(GetParam(), write({"moved", Turn::long_edge, {page}}), 1, kSmall);
  double sum = 0;
  for (const auto& p : places) {
    const Point<VersoMm> moved = r.page_from_wanted()({p.x, p.y});
    sum += (rendered.centroid({moved.x, moved.y}, 3.0).vec() - moved.vec()).norm();
  }
  EXPECT_LT(sum / 9 * 1e3, 1.0);
}

TEST_P(GeometryTest, BoxesAreFilledWhereTheyOverlapToo) {
  const Boxes boxes{{{-20.3, -30.7, -10.1, -25.2},  // alone: 10.2 x 5.5 mm
                     {10.0, 20.0, 20.0, 23.0},      // a cross of two: 30 + 30 - 9 mm2
                     {13.0, 16.5, 16.0, 26.5}},
                    {}};
  const auto page =
      render_page(GetParam(), write({"boxes", Turn::long_edge, {{kSmall, {boxes}}}}), 1, kSmall);
  double area = 0;
  const Point<PageMm> middle = page.centroid({-15.2, -27.95}, 7.0, &area);
  EXPECT_NEAR(area, 10.2 * 5.5, 0.5);
  EXPECT_NEAR(middle.x, -15.2, 0.02);
  EXPECT_NEAR(middle.y, -27.95, 0.02);
  (void)page.centroid({15, 21.5}, 8.0, &area);
  EXPECT_NEAR(area, 30 + 30 - 9, 0.5);
  EXPECT_EQ(page.ink_at({14.5, 21.5}), 1.0);
}

TEST_P(GeometryTest, DashedLinesStayOnTheirPath) {
  const Polyline line{{{-30, 10}, {30, 10}}, 0.5, false, 1.0, {}};
  const CircleOutline circle{{0, -40}, 15, 0.4, 2.0, {}};
  const auto page = render_page(
      GetParam(), write({"dashes", Turn::long_edge, {{kSmall, {line, circle}}}}), 1, kSmall);
  double inked = 0;
  for (int i = 0; i < 600; ++i) inked += page.ink_at({-30 + 0.1 * i, 10});
  EXPECT_NEAR(inked / 600, 0.5, 0.06);
  EXPECT_EQ(page.ink_at({0, 11}), 0);
  inked = 0;
  for (int i = 0; i < 720; ++i) {
    inked += page.ink_at({15 * std::cos(i * M_PI / 360), -40 + 15 * std::sin(i * M_PI / 360)});
  }
  EXPECT_NEAR(inked / 720, 0.5, 0.06);
}

/// A PNG-coded image that is white but for its upper left ninth.
CodedImage marked_image(const ScratchFolder& scratch) {
  Raster raster;
  raster.width_px = 60;
  raster.height_px = 90;
  raster.channels = 1;
  raster.samples.assign(60 * 90, 255);
  for (int y = 0; y < 30; ++y) {
    for (int x = 0; x < 20; ++x) raster.at(x, y, 0) = 0;
  }
  const auto file = scratch / "marked.png";
  write_file_atomically(file, encode_png(raster), true);
  return read_coded_image(file);
}

TEST_P(GeometryTest, ImagesAreTurnedClockwiseAndCropped) {
  for (int turns = 0; turns < 4; ++turns) {
    PdfDocument document{"image", Turn::long_edge, {{kSmall, {}}}};
    document.images = {marked_image(scratch_)};
    document.pages[0].images = {{0, {0, 0}, 40, 60, turns, {-60, -75, 60, 75}}};
    const auto page = render_page(GetParam(), write(document), 1, kSmall, 100);
    // The dark ninth starts at the upper left and goes round clockwise.
    const Eigen::Vector2d corners[] = {{-13, -20}, {20, -13}, {13, 20}, {-20, 13}};
    for (int i = 0; i < 4; ++i) {
      EXPECT_NEAR(page.ink_at({corners[i].x(), corners[i].y()}), i == turns ? 1.0 : 0.0, 0.01)
          << turns << " " << i;
    }
  }
  PdfDocument document{"crop", Turn::long_edge, {{kSmall, {}}}};
  document.images = {marked_image(scratch_)};
  document.pages[0].images = {{0, {0, 0}, 40, 60, 0, {-13, -75, 60, 75}}};
  const auto page = render_page(GetParam(), write(document), 1, kSmall, 100);
  EXPECT_EQ(page.ink_at({-14, -20}), 0);
  EXPECT_EQ(page.ink_at({-12, -20}), 1);
}

// EXIF (CIPA DC-008): value -> the side of the picture on which the first row and the first column
// of the stored image are. The dark upper left corner of the stored image is where they meet.
TEST_P(GeometryTest, ExifOrientationsAreFollowed) {
  const std::pair<double, double> corner_of_value[] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1},
                                                       {-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
  for (int value = 1; value <= 8; ++value) {
    PdfDocument document{"exif", Turn::long_edge, {{kSmall, {}}}};
    document.images = {marked_image(scratch_)};
    std::get<CodedImage>(document.images[0]).orientation = value;
    const double width = value >= 5 ? 60 : 40;
    const double height = value >= 5 ? 40 : 60;
    document.pages[0].images = {{0, {0, 0}, width, height, 0, {-60, -75, 60, 75}}};
    const auto page = render_page(GetParam(), write(document), 1, kSmall, 100);
    for (const double x : {-1.0, 1.0}) {
      for (const double y : {-1.0, 1.0}) {
        const bool dark = std::pair(x, y) == corner_of_value[value - 1];
        EXPECT_NEAR(page.ink_at({x * width / 3, y * height / 3}), dark ? 1.0 : 0.0, 0.01)
            << "orientation " << value;
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Renderers, GeometryTest,
                         testing::Values(Renderer::pdftocairo, Renderer::mutool),
                         [](const auto& p) { return std::string(program(p.param)); });

TEST_F(PdfDocumentTest, AsksThePrintDialogueToLeaveThePagesAlone) {
  for (const Turn turn : {Turn::long_edge, Turn::short_edge}) {
    const auto file = write({"wishes", turn, {{kSmall, {}}, {kSmall, {}}}});
    const std::string wishes = shown(file, "trailer/Root/ViewerPreferences");
    EXPECT_THAT(wishes, HasSubstr("/PrintScaling /None"));
    EXPECT_THAT(wishes, HasSubstr("/Enforce [ /PrintScaling ]"));
    EXPECT_THAT(wishes, HasSubstr("/PickTrayByPDFSize true"));
    EXPECT_THAT(wishes, HasSubstr(turn == Turn::long_edge ? "/DuplexFlipLongEdge"
                                                          : "/DuplexFlipShortEdge"));
  }
}

TEST_F(PdfDocumentTest, EveryBoxIsTheExactSizeOfThePaper) {
  const auto file = write({"boxes", Turn::long_edge, {{parse_paper("a4"), {}}}});
  for (const char* box : {"MediaBox", "CropBox", "BleedBox", "TrimBox"}) {
    // 210 and 297 mm in points of 1/72 inch.
    EXPECT_THAT(shown(file, std::string("pages/1/") + box), HasSubstr("[ 0 0 595.2756 841.8898 ]"))
        << box;
  }
}

TEST_F(PdfDocumentTest, IsAcceptedByTheCheckerAndKeepsTitleAndText) {
  const std::string words = "Gr\u00fcn \u00b10.2 \u00b5m \u2265 3 \u2014 \u0416";
  const auto file = write({"K\u00f6nigsfischer",
                           Turn::long_edge,
                           {{kSmall,
                             {Text{.at = {0, 0},
                                   .utf8 = words,
                                   .size_mm = 4.0,
                                   .align = Align::centre,
                                   .bold = true}}}}});
  EXPECT_EQ(run("qpdf --check '" + file.string() + "'").status, 0);
  const auto text = run("pdftotext '" + file.string() + "' -");
  EXPECT_THAT(text.output, HasSubstr(words));
  EXPECT_THAT(text.output, testing::Not(HasSubstr("Warning")));
  EXPECT_THAT(run("pdfinfo '" + file.string() + "'").output, HasSubstr("K\u00f6nigsfischer"));
}

TEST_F(PdfDocumentTest, InksEverythingInDeviceGray) {
  const Drawing drawing{Disc{{0, 0}, 3, 0, {}}, Polyline{{{0, 0}, {5, 5}}, 0.2, false, 0, {}},
                        Polygon{{{0, 0}, {1, 0}, {0, 1}}, {0.5}},
                        Boxes{{{0, 0, 1, 1}, {2, 2, 3, 3}}, {}},
                        Text{.at = {0, 0}, .utf8 = "black", .size_mm = 3, .angle_deg = 0}};
  const auto file = write({"ink", Turn::long_edge, {{kSmall, drawing}}});
  std::istringstream tokens(content(file));
  int grey_operators = 0;
  for (std::string token; tokens >> token;) {
    EXPECT_THAT(token, testing::AllOf(testing::Ne("rg"), testing::Ne("RG"), testing::Ne("k"),
                                      testing::Ne("K"), testing::Ne("cs"), testing::Ne("sc")));
    if (token == "g" || token == "G") ++grey_operators;
  }
  EXPECT_EQ(grey_operators, 5);
}

// Every Bezier arc of the content stream is sampled by its definition.
TEST_F(PdfDocumentTest, CirclesAreWithinATenthOfAMicrometreOfACircle) {
  for (const double radius_mm : {0.4, 3.0, 25.0, 55.0}) {
    const auto file =
        write({"circle", Turn::long_edge, {{kSmall, {Disc{{0, 0}, radius_mm, 0, {}}}}}});
    std::istringstream tokens(content(file));
    std::vector<double> numbers;
    Eigen::Vector2d at(0, 0);
    double worst_um = 0;
    int arcs = 0;
    const Eigen::Vector2d centre(60 * 72 / 25.4, 75 * 72 / 25.4);
    for (std::string token; tokens >> token;) {
      if (const auto number = parse_number(token)) {
        numbers.push_back(*number);
        continue;
      }
      if (token == "m") at = {numbers.at(0), numbers.at(1)};
      if (token == "c") {
        const Eigen::Vector2d b(numbers.at(0), numbers.at(1));
        const Eigen::Vector2d c(numbers.at(2), numbers.at(3));
        const Eigen::Vector2d d(numbers.at(4), numbers.at(5));
        for (double t = 0; t <= 1; t += 0.01) {
          const double u = 1 - t;
          const Eigen::Vector2d p =
              u * u * u * at + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
          worst_um =
              std::max(worst_um, std::abs((p - centre).norm() * 25.4 / 72 - radius_mm) * 1e3);
        }
        at = d;
        ++arcs;
      }
      numbers.clear();
    }
    EXPECT_GE(arcs, 4);
    EXPECT_LT(worst_um, 0.1) << radius_mm;
  }
}

TEST_F(PdfDocumentTest, IsTheSameBytesForTheSameDocumentAndDate) {
  setenv("SOURCE_DATE_EPOCH", "1700000000", 1);
  const PdfDocument document{
      "same",
      Turn::long_edge,
      {{kSmall, {Text{.at = {0, 0}, .utf8 = "x", .size_mm = 3, .angle_deg = 0}}}}};
  const std::string first = render_pdf(document);
  EXPECT_EQ(first, render_pdf(document));
  unsetenv("SOURCE_DATE_EPOCH");
  EXPECT_THAT(first, HasSubstr("%PDF-1.7"));
}

TEST_F(PdfDocumentTest, RefusesToDrawWhatIsNotFinite) {
  const double bad = std::numeric_limits<double>::quiet_NaN();
  for (const Shape& shape :
       {Shape{Disc{{bad, 0}, 1, 0, {}}}, Shape{Disc{{0, 0}, bad, 0, {}}},
        Shape{Disc{{0, 0}, -1.0, 0, {}}},
        Shape{Disc{{0, 0}, std::numeric_limits<double>::infinity(), 0, {}}},
        Shape{Polyline{{{0, 0}, {0, bad}}, 0.1, false, 0, {}}},
        Shape{Text{.at = {0, 0}, .utf8 = "a", .size_mm = 3, .angle_deg = bad}}}) {
    EXPECT_THROW((void)render_pdf({"bad", Turn::long_edge, {{kSmall, {shape}}}}), std::logic_error);
  }
}

TEST_F(PdfDocumentTest, NamesTheByteOfTextThatIsNotUtf8) {
  const Text text{{0, 0}, "ab\xC3(", 3, Align::left, 0, false, {}};
  try {
    (void)render_pdf({"bad", Turn::long_edge, {{kSmall, {text}}}});
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("byte=3"));
  }
}

// Advance widths in DejaVuSans.ttf 2.37, units of 1/2048 em, read out of its cmap and hmtx tables
// by a separate script: i 569, n 1298, W 2025. libharu keeps whole thousandths of the em, rounded
// down, and writes the same numbers into the PDF: a line is as wide as it is measured.
TEST(TextWidth, IsTheSumOfTheAdvances) {
  EXPECT_NEAR(text_width_mm("inW", 10.0), (569 + 1298 + 2025) / 2048.0 * 10.0, 3 * 0.001 * 10.0);
  EXPECT_DOUBLE_EQ(text_width_mm("", 10.0), 0.0);
  EXPECT_GT(text_width_mm("n", 10.0, true), text_width_mm("n", 10.0));
}

TEST(Wrapped, KeepsEveryWordAndEveryLineInItsColumn) {
  const std::string text = "Let both sides dry: damp prints smear, and never laminate them";
  std::string joined;
  for (const std::string& line : wrapped(text, 30.0, 3.0)) {
    EXPECT_LE(text_width_mm(line, 3.0), 30.0);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text);
}

TEST(Shortened, CutsWholeCharactersAndFits) {
  const std::string text = "\u00c4\u00d6\u00dc\u00e4\u00f6\u00fc\u20ac\u20ac\u20ac";
  for (double width : {3.0, 5.0, 9.0, 14.0}) {
    const std::string cut = shortened(text, width, 3.0);
    EXPECT_LE(text_width_mm(cut, 3.0), width);
    EXPECT_NO_THROW((void)printable_text(cut));
  }
  EXPECT_EQ(shortened("abc", 100.0, 3.0), "abc");
}

}  // namespace
}  // namespace versolay
