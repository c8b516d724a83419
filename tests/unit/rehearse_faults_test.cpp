// Every fault does what its name says, by the amount stated.
#include <gmock/gmock.h>

#include <numbers>

#include "rehearse/ink.h"
#include "rehearse/simulation_random.h"
#include "unit/rehearse_support.h"

namespace versolay::rehearse {
namespace {

using ::testing::HasSubstr;

constexpr double kW = 100.0, kH = 140.0;
const DrawnPage kRing{{0.0, 0.0, 6.0, 5.2}};

RehearsalSettings at_300() {
  RehearsalSettings s = perfect_settings();
  s.scanner.margin_mm = 5;
  return s;
}

Point<ScanPx> px_of(double x_mm, double y_mm, double dpi = 300, double margin_mm = 5) {
  return {(x_mm + kW / 2 + margin_mm) * dpi / 25.4, (y_mm + kH / 2 + margin_mm) * dpi / 25.4};
}

Darkness ring_seen(const RehearsalSettings& s) {
  const TestJob test(kW, kH, {kRing, {}});
  return darkness_near(picture(test.run(s), 1, Side::recto), px_of(0, 0), 7 * 300 / 25.4);
}

/// Mean width in um of the ring's line: its area over its middle circumference.
double line_um(const Darkness& ring) {
  const double area_mm2 = ring.area_px * 25.4 / 300 * 25.4 / 300;
  return area_mm2 / (2 * std::numbers::pi * 5.6) * 1e3;
}

TEST(DotGain, WidensALineByTheAmountStated) {
  const double plain = line_um(ring_seen(at_300()));
  EXPECT_NEAR(plain, 800, 3);
  for (double gain : {15.0, 30.0, 45.0}) {
    RehearsalSettings s = at_300();
    s.ink.dot_gain_um = gain;
    s.ink.spread_um = 20;
    EXPECT_NEAR(line_um(ring_seen(s)) - plain, gain, 1.0);
  }
}

TEST(FeedBleed, MovesTheLowerEdgesOnly) {
  const Darkness plain = ring_seen(at_300());
  RehearsalSettings s = at_300();
  s.ink.feed_bleed_um = 40;
  const Darkness bled = ring_seen(s);
  // Every lower edge moves by b: a thin ring becomes the mean of itself and itself moved.
  EXPECT_NEAR((bled.centre.y - plain.centre.y) * 25.4e3 / 300, 20, 2);
  EXPECT_NEAR((bled.centre.x - plain.centre.x) * 25.4e3 / 300, 0, 0.2);
}

TEST(Raggedness, LeavesLinesAsWideAsTheyWere) {
  RehearsalSettings s = at_300();
  s.ink.spread_um = 20;
  const double smooth = line_um(ring_seen(s));
  s.ink.raggedness_um = 8;
  EXPECT_NEAR(line_um(ring_seen(s)), smooth, 1.5);
}

TEST(Swaths, ShiftByTheJitterStated) {
  PageRaster page{400, 6000, 600, std::vector<std::uint8_t>(400 * 6000)};
  InkSettings s = perfect_settings().ink;
  s.swath_mm = 5;
  s.swath_jitter_um = 10;
  double squares = 0;
  int count = 0;
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    for (const auto& shift : print_page(page, s, Random(seed, "ink")).swath_shift_px) {
      squares += static_cast<double>(shift[0] * shift[0] + shift[1] * shift[1]);
      count += 2;
    }
  }
  EXPECT_NEAR(std::sqrt(squares / count) * 25.4e3 / 600, 10, 10 * 4.5 / std::sqrt(2.0 * count));
}

TEST(MissingNozzles, LeaveOneWhiteLineInEverySwath) {
  PageRaster page{50, 1200, 600, std::vector<std::uint8_t>(50 * 1200, 255)};
  InkSettings s = perfect_settings().ink;
  s.swath_mm = 12.7;  // 300 rows
  s.missing_nozzles = 1;
  const PrintedPage printed = print_page(page, s, Random(1, "ink"));
  int white = 0;
  for (int y = 0; y < 1200; ++y) white += printed.raster.row(y)[25] == 0 ? 1 : 0;
  EXPECT_EQ(white, 4);
}

TEST(ShowThrough, DarkensThePlaceStraightBehind) {
  const DrawnPage disc{{-20.0, 30.0, 6.0}};
  const TestJob test(kW, kH, {{}, disc});
  RehearsalSettings s = at_300();
  s.paper.show_through = 0.1;
  const ScanImage front = picture(test.run(s), 1, Side::recto);
  const auto value = [&](double x, double y) {
    const auto px = px_of(x, y);
    return value_at(front, static_cast<int>(px.x), static_cast<int>(px.y));
  };
  EXPECT_NEAR(value(20, 30), 255 * 0.9, 1.5);  // long-edge turn: x changes its sign
  EXPECT_EQ(value(-20, 30), 255);
}

TEST(Noise, HasTheSpreadStatedAtWhite) {
  const TestJob test(kW, kH, {{}, {}});
  RehearsalSettings s = at_300();
  s.paper.reflectance = 0.8;
  s.scanner.noise = 0.02;
  const ScanImage image = picture(test.run(s), 1, Side::recto);
  double sum = 0, squares = 0;
  int count = 0;
  for (int y = 400; y < 1200; ++y) {
    for (int x = 300; x < 900; ++x, ++count) {
      const double v = value_at(image, x, y) / 255.0;
      sum += v;
      squares += v * v;
    }
  }
  const double mean = sum / count;
  EXPECT_NEAR(mean, 0.8, 0.001);
  EXPECT_NEAR(std::sqrt(squares / count - mean * mean), 0.02 * std::sqrt(0.06 + 0.94 * 0.8), 4e-4);
}

TEST(TornCorner, IsMissingFromBothSides) {
  const TestJob test(kW, kH, {{}, {}});
  RehearsalSettings s = at_300();
  s.paper.torn_corner_mm = 20;
  const RehearsalScans scans = test.run(s);
  const auto value = [&](Side side, double x, double y) {
    const auto px = px_of(x, y);
    return value_at(picture(scans, 1, side), static_cast<int>(px.x), static_cast<int>(px.y));
  };
  EXPECT_LT(value(Side::recto, 46, 66), 60);
  EXPECT_GT(value(Side::recto, -46, 66), 200);
  EXPECT_LT(value(Side::verso, -46, 66), 60);
  EXPECT_GT(value(Side::verso, 46, 66), 200);
}

TEST(WhiteLid, ShowsACrescentInsteadOfAHole) {
  TestJob test(kW, kH, {{}, {}});
  test.job.holes = {{"a", {0, 0}, HoleKind::punch, 5}};
  RehearsalSettings s = at_300();
  s.scanner.background = Background::white_lid;
  s.scanner.shadow_mm = 0.4;
  const ScanImage image = picture(test.run(s), 1, Side::recto);
  const auto value = [&](double x, double y) {
    const auto px = px_of(x, y);
    return value_at(image, static_cast<int>(px.x), static_cast<int>(px.y));
  };
  EXPECT_GT(value(0, 0), 190);
  EXPECT_LT(value(0, -2.8), 100);  // towards the lamp
  EXPECT_GT(value(0, 2.8), 190);
  const Darkness dark = darkness_near(image, px_of(0, 0), 3.6 * 300 / 25.4);
  EXPECT_LT((dark.centre.y - px_of(0, 0).y) * 25.4 / 300, -0.3);  // the centroid is led astray
}

TEST(MarginZero, CutsTheSheetsEdgeOff) {
  const TestJob test(kW, kH, {{}, {}});
  RehearsalSettings s = at_300();
  s.scanner.margin_mm = 0;
  const ScanImage image = picture(test.run(s), 1, Side::recto);
  EXPECT_EQ(image.width, std::lround(kW * 300 / 25.4));
  EXPECT_EQ(image.height, std::lround(kH * 300 / 25.4));
  EXPECT_GT(value_at(image, 2, 2), 200);
}

TEST(Settings, OutsideTheirRangeAreNamed) {
  RehearsalSettings s;
  s.scanner.skew_deg = 30;
  try {
    s.validate();
    FAIL();
  } catch (const Error& e) {
    EXPECT_THAT(e.what(), HasSubstr("skew_deg"));
  }
  s = {};
  s.scanner.orientations = {45};
  EXPECT_THROW(s.validate(), Error);
}

}  // namespace
}  // namespace versolay::rehearse
