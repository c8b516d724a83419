// What is printed beyond the cut, seen in the finished PDF.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "app/impose.h"
#include "support/findings.h"
#include "support/image_files.h"
#include "support/pdf_render.h"

namespace versolay {
namespace {

using testing_support::render_page;
using testing_support::RenderedPage;
using testing_support::Renderer;
using testing_support::run;
using testing_support::ScratchFolder;

constexpr double kReach = 0.7;

/// A back of 63 x 88 mm at 300 ppi in one grey, with a black disc of 5 mm in its middle.
Raster plain_back(int grey, double bleed_mm = 0) {
  Raster r;
  r.width_px = static_cast<int>(std::lround((63 + 2 * bleed_mm) / 25.4 * 300));
  r.height_px = static_cast<int>(std::lround((88 + 2 * bleed_mm) / 25.4 * 300));
  r.channels = 1;
  r.samples.assign(static_cast<std::size_t>(r.width_px) * static_cast<std::size_t>(r.height_px),
                   static_cast<std::uint16_t>(grey));
  for (int y = 0; y < r.height_px; ++y) {
    for (int x = 0; x < r.width_px; ++x) {
      const double mm =
          std::hypot(x + 0.5 - r.width_px / 2.0, y + 0.5 - r.height_px / 2.0) / 300 * 25.4;
      if (mm < 5) r.at(x, y, 0) = 0;
    }
  }
  return r;
}

/// Diagonal waves that close over the card.
Raster pattern_back() {
  Raster r = plain_back(255);
  for (int y = 0; y < r.height_px; ++y) {
    for (int x = 0; x < r.width_px; ++x) {
      const double v =
          std::sin(2 * M_PI * (5 * (x + 0.5) / r.width_px + 7 * (y + 0.5) / r.height_px));
      r.at(x, y, 0) = static_cast<std::uint16_t>(std::lround(127.5 + 120 * v));
    }
  }
  return r;
}

/// Area of what is darker than `ink` around a place, mm2: that of the disc.
double dark_area(const RenderedPage& page, const Point<PageMm>& middle, double ink) {
  int count = 0;
  const double step = kMmPerInch / page.dpi;
  for (double x = -7; x < 7; x += step) {
    for (double y = -7; y < 7; y += step) {
      if (page.ink_at({middle.x + x, middle.y + y}) > ink) ++count;
    }
  }
  return count * step * step;
}

constexpr double kDisc = M_PI * 25;
constexpr double kEnlargedDisc = kDisc * (64.4 / 63) * (64.4 / 63);  // 4.5 % more
/// mutool rounds a picture outward to whole pixels and takes the nearest pixel of the picture for
/// each of its own: 744 px that fill 63 mm become 1490 px instead of 1488.2, so that one column and
/// one row more than twice as many are somewhere in it. When both go through the disc (of 10 mm)
/// they add two rows of 600-dpi pixels to it, 1.08 %. The pixels of the picture itself cover 0.05 %
/// more than a circle; that much again for where they fall.
constexpr double kAreaGate = 2 * 10 * (kMmPerInch / 600) + 0.001 * kDisc;

class BackArtTest : public testing::Test {
 protected:
  BackArtTest() {
    std::filesystem::create_directory(scratch_ / "fronts");
    for (int i = 1; i <= 9; ++i) {
      Raster front = testing_support::test_picture(744, 1039, 1);
      front.at(i, 0, 0) = 0;
      save(front, "fronts/" + std::to_string(i) + ".png");
    }
    request_.cards.fronts = scratch_ / "fronts";
    request_.cards.back = scratch_ / "back.png";
    request_.cards.size = {63, 88};
    request_.outputs.pdf = scratch_ / "job.pdf";
    request_.outputs.cut_card = scratch_ / "cut.pdf";
    request_.backs.oversize = Reach{kReach, kReach};
  }

  void save(const Raster& r, const std::string& name) {
    write_file_atomically(scratch_ / name, encode_png(r), true);
  }

  RenderedPage back_page(Renderer renderer = Renderer::mutool) {
    request_.outputs.replace = true;
    auto result = run_impose(request_, {});
    if (!result) throw Error("", result.refusal());
    report_ = result.value();
    EXPECT_EQ(run("qpdf --check '" + request_.outputs.pdf.string() + "'").status, 0);
    return render_page(renderer, request_.outputs.pdf, 2, report_.plan.paper, 600);
  }

  std::set<std::string> codes() const {
    std::set<std::string> all;
    for (const Notice& n : report_.warnings) all.insert(n.code);
    return all;
  }

  ScratchFolder scratch_;
  ImposeRequest request_;
  ImposeReport report_;
};

TEST_F(BackArtTest, APlainEdgeGoesOnAndThePictureKeepsItsSize) {
  save(plain_back(100), "back.png");
  for (const Renderer renderer : {Renderer::pdftocairo, Renderer::mutool}) {
    const RenderedPage page = back_page(renderer);
    EXPECT_EQ(report_.plan.back_reach.counts.plain, 1);
    EXPECT_DOUBLE_EQ(report_.plan.back_reach.inner_mm, kReach);
    const double grey = 1 - 100 / 255.0;
    for (const double way : {-1.0, 1.0}) {
      EXPECT_NEAR(page.ink_at({way * (94.5 + kReach - 0.1), 30}), grey, 0.01);
      EXPECT_EQ(page.ink_at({way * (94.5 + kReach + 0.1), 30}), 0.0);
      EXPECT_NEAR(page.ink_at({20, way * (132 + kReach - 0.1)}), grey, 0.01);
      EXPECT_EQ(page.ink_at({20, way * (132 + kReach + 0.1)}), 0.0);
    }
    // Across a common cut there is no seam.
    for (double x = 30.5; x < 32.5; x += 0.02) EXPECT_NEAR(page.ink_at({x, 20}), grey, 0.01) << x;
    EXPECT_NEAR(dark_area(page, {63, 88}, 0.8), kDisc, kAreaGate);
    EXPECT_FALSE(codes().contains("inner_edges"));
  }
}

TEST_F(BackArtTest, APlainEdgeIsNoWiderThanItIs) {
  Raster narrow = plain_back(100);
  for (int y = 10; y < narrow.height_px - 10; ++y) {  // 0.85 mm of border, a busy picture inside
    for (int x = 10; x < narrow.width_px - 10; ++x) {
      narrow.at(x, y, 0) = static_cast<std::uint16_t>((x * 7 + y * 13) % 200);
    }
  }
  save(narrow, "back.png");
  request_.backs.oversize = Reach{1.2, 1.2};
  (void)back_page();
  EXPECT_TRUE(codes().contains("narrow_edge"));
}

TEST_F(BackArtTest, AWhiteEdgeIsLeftAlone) {
  save(plain_back(255), "back.png");
  const RenderedPage page = back_page();
  EXPECT_EQ(report_.plan.back_reach.counts.white, 1);
  EXPECT_EQ(report_.plan.back_reach.granted.x_mm, 0);
  EXPECT_TRUE(codes().contains("white_edge"));
  EXPECT_NEAR(dark_area(page, {0, 0}, 0.5), kDisc, kAreaGate);
}

TEST_F(BackArtTest, APatternIsRepeatedBeyondTheCut) {
  save(pattern_back(), "back.png");
  const RenderedPage page = back_page();
  EXPECT_EQ(report_.plan.back_reach.counts.pattern, 1);
  const auto wave = [](double x, double y) {
    return 1 - (127.5 + 120 * std::sin(2 * M_PI * (5 * (x / 63 + 0.5) + 7 * (y / 88 + 0.5)))) / 255;
  };
  // On both sides of outer edges, corners and common cuts the same wave goes on.
  for (const Point<PageMm>& p : {Point<PageMm>{94.5 + 0.5, 10},
                                 {94.5 - 0.5, 10},
                                 {-94.5 - 0.5, 40},
                                 {5, 132 + 0.5},
                                 {8, -132 - 0.5},
                                 {94.5 + 0.5, 132 + 0.5},
                                 {31.5 + 0.4, 3},
                                 {31.5 - 0.4, 3}}) {
    EXPECT_NEAR(page.ink_at(p), wave(p.x, p.y), 0.05) << p.x << " " << p.y;
  }
  EXPECT_EQ(page.ink_at({94.5 + kReach + 0.1, 10}), 0.0);
  EXPECT_FALSE(codes().contains("inner_edges"));
}

TEST_F(BackArtTest, APictureIsEnlargedAndSaysWhatItsInnerEdgesDoNotGet) {
  save(plain_back(100), "back.png");
  request_.backs.edge = EdgeKind::picture;
  const RenderedPage page = back_page();
  EXPECT_NEAR(dark_area(page, {63, 88}, 0.8), kEnlargedDisc, kAreaGate);
  EXPECT_TRUE(codes().contains("inner_edges"));
  request_.sheet.gutter_mm = 2 * kReach;
  (void)back_page();
  EXPECT_FALSE(codes().contains("inner_edges"));
}

TEST_F(BackArtTest, DifferentPlainBacksEndAtTheCommonCutWhateverIsPaintedFirst) {
  std::filesystem::create_directory(scratch_ / "backs");
  for (int i = 1; i <= 9; ++i) {
    save(plain_back(i % 2 == 0 ? 60 : 140), "backs/" + std::to_string(i) + ".png");
  }
  request_.cards.back = scratch_ / "backs";
  const RenderedPage page = back_page();
  EXPECT_NEAR(page.ink_at({31.5 - 0.2, 20}), 1 - 140 / 255.0, 0.01);  // the middle card, number 5
  EXPECT_NEAR(page.ink_at({31.5 + 0.2, 20}), 1 - 60 / 255.0, 0.01);
  EXPECT_NEAR(page.ink_at({20, 44 - 0.2}), 1 - 140 / 255.0, 0.01);
  EXPECT_NEAR(page.ink_at({20, 44 + 0.2}), 1 - 60 / 255.0, 0.01);
}

// A border all round, but of a picture that is wider than the card: left and right it is cut away,
// and what is left there is no plain edge.
TEST_F(BackArtTest, AnEdgeThatIsCutAwayIsNotPlain) {
  Raster wide = testing_support::test_picture(900, 1039, 1);  // left and right differ
  for (int y = 0; y < wide.height_px; ++y) {
    for (int x = 0; x < wide.width_px; ++x) {
      const bool border = std::min({x, y, wide.width_px - 1 - x, wide.height_px - 1 - y}) < 40;
      wide.at(x, y, 0) = static_cast<std::uint16_t>(border ? 60 : 30 + x / 5);
    }
  }
  save(wide, "back.png");
  (void)back_page();
  EXPECT_EQ(report_.plan.back_reach.counts.plain, 0);
  EXPECT_EQ(report_.plan.back_reach.counts.picture, 1);
  request_.backs.art.fit = ArtFit::fit;  // now all of it is shown
  (void)back_page();
  EXPECT_EQ(report_.plan.back_reach.counts.plain, 1);
}

TEST_F(BackArtTest, TellsByHowMuchPicturesAreEnlarged) {
  save(plain_back(100), "back.png");
  request_.backs.edge = EdgeKind::picture;
  (void)back_page();
  EXPECT_NEAR(report_.plan.back_reach.enlargement, (63 + 2 * kReach) / 63, 1e-3);
  save(plain_back(100, 1.0), "back.png");
  request_.backs.art.bleed_mm = 1.0;  // more than the reach
  (void)back_page();
  EXPECT_DOUBLE_EQ(report_.plan.back_reach.enlargement, 1.0);
}

TEST_F(BackArtTest, APatternWithTooLittleBleedIsEnlargedUntilItReaches) {
  save(pattern_back(), "back.png");
  request_.backs.edge = EdgeKind::pattern;
  request_.backs.art.bleed_mm = 0.4;
  const RenderedPage page = back_page();
  EXPECT_GT(report_.plan.back_reach.enlargement, 1.0);
  double least = 1.0;  // the waves are nowhere lighter than 3 % of ink
  for (double y = -120; y <= 120; y += 1) {
    least = std::min(
        {least, page.ink_at({94.5 + kReach - 0.1, y}), page.ink_at({-94.5 - kReach + 0.1, y})});
  }
  EXPECT_GT(least, 0.01);
  EXPECT_TRUE(codes().contains("inner_edges"));
}

TEST_F(BackArtTest, BacksCanStandHeadToFoot) {
  Raster back = plain_back(200);
  for (int y = 100; y < 200; ++y) {
    for (int x = 100; x < 200; ++x) back.at(x, y, 0) = 0;  // upper left of the card
  }
  save(back, "back.png");
  const double at_x = 31.5 - 150 / 300.0 * 25.4;
  const double at_y = 44 - 150 / 300.0 * 25.4;
  EXPECT_EQ(back_page().ink_at({-at_x, -at_y}), 1.0);
  request_.backs.head_to_foot = true;
  const RenderedPage page = back_page();
  EXPECT_EQ(page.ink_at({at_x, at_y}), 1.0);
  EXPECT_LT(page.ink_at({-at_x, -at_y}), 0.5);
}

TEST_F(BackArtTest, FitShowsAllOfAPictureAndCropKeepsItsSize) {
  Raster wide = plain_back(100);  // 63 x 88 mm at 300 ppi
  wide.ppi_x = wide.ppi_y = 300;
  save(wide, "back.png");
  request_.cards.size = {50, 88};
  request_.sheet.grid = GridShape{1, 1};
  request_.backs.oversize = Reach{};
  request_.backs.art.fit = ArtFit::fit;
  const RenderedPage fitted = back_page();
  const double shrunk = 50 / 63.0;
  EXPECT_NEAR(dark_area(fitted, {0, 0}, 0.8), kDisc * shrunk * shrunk, kAreaGate);
  // What the picture leaves of the card has its edge colour, as far as the card goes.
  EXPECT_NEAR(fitted.ink_at({0, 43.7}), 1 - 100 / 255.0, 0.01);
  EXPECT_EQ(fitted.ink_at({0, 44.3}), 0.0);
  request_.backs.art.fit = ArtFit::crop;
  request_.cards.size = {40, 60};
  EXPECT_NEAR(dark_area(back_page(), {0, 0}, 0.8), kDisc, kAreaGate);
}

TEST_F(BackArtTest, EveryBackGoesThroughTheResidualFieldAtItsPlace) {
  Raster back = plain_back(255);
  save(back, "back.png");
  PrinterProfile profile;
  profile.paper = parse_paper("a4");
  profile.turn = Turn::long_edge;
  profile.mean = {0.3, -0.2, 1.1, 0, 0, 0};
  profile.field.real = true;
  profile.field.length_mm = 90;
  profile.field.amplitude_mm = 0.2;
  // Everything below the middle of the page lands 0.2 mm too far down (the sheet has left a
  // roller).
  for (const double x : {-95.0, -60.0, 60.0, 95.0}) {
    for (const double y : {-135.0, -80.0, -30.0, 30.0, 80.0, 135.0}) {
      profile.field.points.push_back({"H", {x, y}, {0.0, y > 0 ? 0.2 : 0.0}, 0.002, 10});
    }
  }
  request_.backs.profile = profile;
  const RenderedPage page = back_page(Renderer::pdftocairo);
  ASSERT_EQ(report_.plan.correction.cards_moved_mm.size(), 9U);
  const auto printed = profile.mean.landed_from_page();
  for (std::size_t i = 0; i < 9; ++i) {
    const Cell& cell = report_.plan.grid.cells[i];
    const Point<VersoMm> behind = verso_from_recto(TurnAxis::vertical)(cell.centre);
    const Point<VersoMm> wanted =
        Point<VersoMm>::from(behind.vec() + report_.plan.correction.cards_moved_mm[i]);
    const Point<VersoMm> on_page = profile.mean.page_from_wanted()(wanted);
    const Point<PageMm> found = page.centroid({on_page.x, on_page.y}, 7);
    EXPECT_NEAR(found.x, on_page.x, 0.003);
    EXPECT_NEAR(found.y, on_page.y, 0.003);
    // The printer moves it to where it belongs: the lower row lands 0.2 mm further down.
    const double field = behind.y > 40 ? 0.2 : behind.y < -40 ? 0.0 : 0.1;
    const Eigen::Vector2d landed = printed({found.x, found.y}).vec() + Eigen::Vector2d(0, field);
    EXPECT_NEAR((landed - behind.vec()).norm(), 0, cell.row == 1 ? 0.12 : 0.05) << cell.row;
  }
}

}  // namespace
}  // namespace versolay
