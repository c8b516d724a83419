// The target's PDF, looked at by two renderers that have nothing to do with the one that drew it,
// against its geometry file.
#include <gmock/gmock.h>

#include "app/target.h"
#include "core/json.h"
#include "support/pdf_render.h"

namespace versolay {
namespace {

using ::testing::HasSubstr;
using testing_support::render_page;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

struct Case {
  const char* paper;
  Turn turn;
  Renderer renderer;
};
void PrintTo(const Case& c, std::ostream* out) {
  *out << c.paper << " " << to_string(c.turn) << " " << program(c.renderer);
}
class TargetPdfTest : public testing::TestWithParam<Case> {};

INSTANTIATE_TEST_SUITE_P(Renderers, TargetPdfTest,
                         testing::Values(Case{"a4", Turn::long_edge, Renderer::pdftocairo},
                                         Case{"a4", Turn::short_edge, Renderer::mutool},
                                         Case{"letter", Turn::long_edge, Renderer::mutool},
                                         Case{"297x210mm", Turn::short_edge,
                                              Renderer::pdftocairo}));

TEST_P(TargetPdfTest, RingsStandWhereTheGeometryFileSaysToBetterThanAMicrometre) {
  const Case& c = GetParam();
  if (!testing_support::has_program(program(c.renderer))) GTEST_SKIP() << "no renderer";
  const ScratchFolder scratch;
  TargetRequest request;
  request.paper = parse_paper(c.paper);
  request.turn = c.turn;
  request.sheets = 1;
  request.run = "K7QX";
  request.pdf = scratch / "t.pdf";
  request.geometry = scratch / "g.json";
  run_target(request);

  const Json geometry = read_json(scratch / "g.json");
  ASSERT_EQ(geometry["turn"], to_string(c.turn));
  for (const int number : {1, 2}) {
    const auto page = render_page(c.renderer, scratch / "t.pdf", number, request.paper, 600);
    double worst_um = 0.0;
    Eigen::Vector2d mean(0, 0);
    int rings = 0;
    for (const Json& mark : geometry["marks"]) {
      if (mark["kind"] != "ring" || mark["side"] != (number == 1 ? "recto" : "verso")) continue;
      const Point<PageMm> planned{mark["x_mm"], mark["y_mm"]};
      // The window reaches into the quiet zone, not to the outline of a hole's clear disc.
      const Eigen::Vector2d error = (page.centroid(planned, 2.75).vec() - planned.vec()) * 1e3;
      worst_um = std::max(worst_um, error.norm());
      mean += error;
      ++rings;
    }
    ASSERT_GT(rings, 50);
    EXPECT_LT((mean / rings).norm(), 1.0);
    EXPECT_LT(worst_um, 2.0);  // of one ring: a renderer's anti-aliasing has 16 to 256 levels
  }
}

TEST(TargetPdf, AsksForActualSizeAndForTheRightEdgeToBeTurned) {
  const ScratchFolder scratch;
  TargetRequest request;
  request.paper = parse_paper("a4");
  request.turn = Turn::short_edge;
  request.sheets = 3;
  request.pdf = scratch / "t.pdf";
  const TargetReport report = run_target(request);
  EXPECT_EQ(report.pages, 6);
  EXPECT_EQ(report.run.size(), 4u);
  const std::string shown = run("mutool show '" + request.pdf.string() + "' trailer/Root").output;
  EXPECT_THAT(shown, HasSubstr("/PrintScaling /None"));
  EXPECT_THAT(shown, HasSubstr("/Duplex /DuplexFlipShortEdge"));
  EXPECT_EQ(run("qpdf --check '" + request.pdf.string() + "'").status, 0);
  const std::string info = run("pdfinfo -box '" + request.pdf.string() + "'").output;
  EXPECT_THAT(info, HasSubstr("595.276 x 841.89 pts (A4)"));  // 210/25.4*72, 297/25.4*72
}

TEST(TargetPdf, AnExistingFileIsNotReplacedUnasked) {
  const ScratchFolder scratch;
  TargetRequest request;
  request.paper = parse_paper("a4");
  request.sheets = 1;
  request.pdf = scratch / "t.pdf";
  run_target(request);
  EXPECT_THROW(run_target(request), Error);
  request.replace = true;
  EXPECT_NO_THROW(run_target(request));
  request.sheets = 0;
  EXPECT_THROW(run_target(request), Error);
}

}  // namespace
}  // namespace versolay
