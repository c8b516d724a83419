// Files in and out of a rehearsal, and that chance can be repeated.
#include <gmock/gmock.h>

#include <cstdlib>
#include <set>

#include "rehearse/geometry_file.h"
#include "rehearse/page_renderer.h"
#include "rehearse/simulation_random.h"
#include "support/message_of.h"
#include "unit/rehearse_support.h"

namespace versolay::rehearse {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing_support::message_of;

constexpr double kW = 100.0, kH = 140.0;

TestJob small_job(int sheets) {
  std::vector<DrawnPage> pages;
  for (int i = 0; i < 2 * sheets; ++i) pages.push_back({{-30.0 + 10 * i, 20.0, 4.0, 3.0}});
  return {kW, kH, pages};
}

RehearsalSettings quick() {
  RehearsalSettings s;
  s.scanner.dpi = 100;
  s.raster_ppi = 200;
  return s;
}

std::vector<std::string> contents(const RehearsalScans& scans) {
  std::vector<std::string> all;
  for (const auto& file : scans.scans) all.push_back(read_file(file));
  all.push_back(read_file(scans.truth_file));
  return all;
}

TEST(Rehearsal, WithTheSameSeedWritesTheSameBytesWhateverTheThreads) {
  const TestJob test = small_job(3);
  RehearsalSettings s = quick();
  s.threads = 1;
  const auto first = contents(test.run(s));
  s.threads = 4;
  EXPECT_EQ(contents(test.run(s)), first);
  s.seed = 2;
  EXPECT_NE(contents(test.run(s)), first);
}

TEST(Rehearsal, ShufflesItsScans) {
  const TestJob test = small_job(4);
  const RehearsalScans scans = test.run(quick());
  ASSERT_EQ(scans.scans.size(), 8u);
  std::set<std::pair<int, Side>> seen;
  bool in_order = true;
  for (std::size_t i = 0; i < 8; ++i) {
    const ScanTruth& p = scans.pictures[i];
    seen.insert({p.sheet, p.side});
    in_order = in_order && p.sheet == static_cast<int>(i) / 2 + 1;
  }
  EXPECT_EQ(seen.size(), 8u);
  EXPECT_FALSE(in_order);
}

TEST(Rehearsal, RepeatsThePagesOfAJobWhenAsked) {
  TestJob test = small_job(1);
  RehearsalSettings s = quick();
  s.sheets = 3;
  EXPECT_THAT(message_of([&] { test.run(s); }),
              HasSubstr("too_few_pages sheets_there=1 sheets_wanted=3"));
  test.job.repeat_pages = true;
  EXPECT_EQ(test.run(s).scans.size(), 6u);
}

TEST(Rehearsal, RefusesPagesThatDoNotFit) {
  TestJob test = small_job(1);
  test.job.paper = parse_paper("a4");
  EXPECT_THAT(message_of([&] { test.run(quick()); }),
              AllOf(HasSubstr("pages_of_other_size"), HasSubstr("100"), HasSubstr("210")));
  const TestJob odd(kW, kH, {{}});
  EXPECT_THAT(message_of([&] { odd.run(quick()); }), HasSubstr("pages_do_not_pair"));
}

TEST(Renderer, ThatIsMissingIsNamedWithItsPackage) {
  const TestJob test = small_job(1);
  const std::string path = std::getenv("PATH");
  setenv("PATH", "/nonexistent", 1);
  const std::string message = message_of([&] { PageRenderer(test.job.pdf, 100); });
  setenv("PATH", path.c_str(), 1);
  EXPECT_THAT(message, AllOf(HasSubstr("pdftocairo"), HasSubstr("poppler_missing")));
}

TEST(Renderer, ReportsAFileThatIsNoPdf) {
  const TemporaryFolder folder;
  write_file_atomically(folder.path() / "x.pdf", "not a PDF", true);
  EXPECT_THAT(message_of([&] { PageRenderer(folder.path() / "x.pdf", 100); }),
              AllOf(HasSubstr("x.pdf"), HasSubstr("pdf_not_drawable")));
}

TEST(Renderers, AgreeOnWhereInkIs) {
  const TestJob test = small_job(1);
  for (RendererProgram program : {RendererProgram::pdftocairo, RendererProgram::mutool}) {
    PageRenderer renderer(test.job.pdf, 300, program);
    EXPECT_EQ(renderer.page_count(), 2);
    const auto page = renderer.page(1);
    double sum = 0, sum_x = 0, sum_y = 0;
    for (int y = 0; y < page->height; ++y) {
      for (int x = 0; x < page->width; ++x) {
        const double ink = page->row(y)[x];
        sum += ink;
        sum_x += ink * (x + 0.5);
        sum_y += ink * (y + 0.5);
      }
    }
    const Point<RasterPx> expected = raster_from_page(kW, kH, 300)(Point<PageMm>{-30.0, 20.0});
    EXPECT_NEAR(sum_x / sum, expected.x, 0.02);  // 1.7 um
    EXPECT_NEAR(sum_y / sum, expected.y, 0.02);
  }
}

TEST(Renderer, DrawsAPageOnce) {
  const TestJob test = small_job(1);
  PageRenderer renderer(test.job.pdf, 100);
  EXPECT_EQ(renderer.page(1).get(), renderer.page(1).get());
}

TEST(ImageFiles, CarryTheResolutionThatIsAskedFor) {
  const TestJob test = small_job(1);
  RehearsalSettings s = quick();
  const auto first_bytes = [&] { return read_file(test.run(s).scans[0]).substr(0, 80); };
  // 100 dpi = 3937 pixels per metre = 0x0F61 (PNG specification, pHYs)
  const std::string physical("pHYs\0\0\x0F\x61\0\0\x0F\x61\1", 13);
  EXPECT_THAT(first_bytes(), HasSubstr(physical));
  s.scanner.dpi_metadata = DpiMetadata::missing;
  EXPECT_THAT(first_bytes(), Not(HasSubstr("pHYs")));
  s.scanner.dpi_metadata = DpiMetadata::wrong;
  EXPECT_THAT(first_bytes(), AllOf(HasSubstr("pHYs"), Not(HasSubstr(physical))));
  s.scanner.kind = ImageKind::jpeg;
  s.scanner.dpi_metadata = DpiMetadata::right;
  EXPECT_EQ(first_bytes().substr(6, 12), std::string("JFIF\0\1\1\1\0\x64\0\x64", 12));
}

TEST(ImageFiles, OfEveryKindHoldTheSamePicture) {
  const TestJob test = small_job(1);
  RehearsalSettings s = quick();
  const ScanImage png = picture(test.run(s), 1, Side::recto);
  s.scanner.kind = ImageKind::tiff;
  const ScanImage tiff = picture(test.run(s), 1, Side::recto);
  EXPECT_EQ(png.bytes, tiff.bytes);
  s.scanner.kind = ImageKind::jpeg;
  const ScanImage jpeg = picture(test.run(s), 1, Side::recto);
  ASSERT_EQ(png.bytes.size(), jpeg.bytes.size());
  double difference = 0;
  for (std::size_t i = 0; i < png.bytes.size(); ++i) {
    difference += std::abs(png.bytes[i] - jpeg.bytes[i]);
  }
  EXPECT_LT(difference / static_cast<double>(png.bytes.size()), 3.0);
  s.scanner.kind = ImageKind::png;
  s.scanner.colour = true;
  EXPECT_EQ(picture(test.run(s), 1, Side::recto).channels, 3);
}

TEST(Geometry, IsReadAsTheTargetWritesIt) {
  const TemporaryFolder folder;
  const auto path = folder.path() / "g.json";
  write_file_atomically(path, R"({"paper_mm": [210, 297], "turn": "short-edge",
    "marks": [{"id": "m1", "side": "verso", "x_mm": 1.5, "y_mm": -2, "kind": "ring"}],
    "holes": [{"id": "h1", "x_mm": -40, "y_mm": -136.5, "kind": "punch", "clear_radius_mm": 5}]})",
                        true);
  const TargetGeometry g = read_geometry(path);
  EXPECT_EQ(g.paper.name, "a4");
  EXPECT_EQ(g.turn, Turn::short_edge);
  ASSERT_EQ(g.holes.size(), 1u);
  EXPECT_EQ(g.holes[0].kind, HoleKind::punch);
  EXPECT_EQ(g.holes[0].at.y, -136.5);
  ASSERT_EQ(g.marks.size(), 1u);
  EXPECT_EQ(g.marks[0].side, Side::verso);
}

TEST(Geometry, NamesThePlaceOfAMistake) {
  const TemporaryFolder folder;
  const auto path = folder.path() / "g.json";
  write_file_atomically(path, R"({"paper_mm": [210, 297], "turn": "long-edge", "marks": [],
    "holes": [{"id": "h1", "x_mm": 0, "y_mm": 0, "kind": "drill", "clear_radius_mm": 5}]})",
                        true);
  EXPECT_THAT(message_of([&] { read_geometry(path); }),
              AllOf(HasSubstr("/holes/0/kind"), HasSubstr("not_a_kind_of_hole")));
}

TEST(Random, StreamsAreRepeatableAndUnrelated) {
  Random a(1, "one", 5), same(1, "one", 5), other_purpose(1, "two", 5), other_number(1, "one", 6);
  const std::uint64_t first = a.bits();
  EXPECT_EQ(same.bits(), first);
  EXPECT_NE(other_purpose.bits(), first);
  EXPECT_NE(other_number.bits(), first);
}

TEST(Random, DrawsHaveTheRightMoments) {
  for (std::uint64_t seed : {1u, 2u, 3u}) {
    Random random(seed, "moments");
    constexpr int kDraws = 200000;
    double normal = 0, normal2 = 0, normal4 = 0, quick1 = 0, quick2 = 0, uniform = 0;
    for (int i = 0; i < kDraws; ++i) {
      const double z = random.normal(), q = static_cast<double>(random.quick_normal());
      normal += z;
      normal2 += z * z;
      normal4 += z * z * z * z;
      quick1 += q;
      quick2 += q * q;
      uniform += random.uniform();
    }
    EXPECT_NEAR(normal / kDraws, 0, 0.011);   // 5 sd of the mean
    EXPECT_NEAR(normal2 / kDraws, 1, 0.016);  // variance of z^2 is 2
    EXPECT_NEAR(normal4 / kDraws, 3, 0.11);   // variance of z^4 is 96
    EXPECT_NEAR(quick1 / kDraws, 0, 0.011);
    EXPECT_NEAR(quick2 / kDraws, 1, 0.016);
    EXPECT_NEAR(uniform / kDraws, 0.5, 0.0033);
  }
}

}  // namespace
}  // namespace versolay::rehearse
