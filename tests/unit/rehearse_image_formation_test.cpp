// The simulator's own error: pictures of discs whose places are known by arithmetic.
#include <gmock/gmock.h>

#include <Eigen/Dense>
#include <numbers>

#include "rehearse/bed.h"
#include "unit/rehearse_support.h"

namespace versolay::rehearse {
namespace {

constexpr double kWidthMm = 100.0, kHeightMm = 140.0, kMarginMm = 8.0;
constexpr double kOwnErrorMm = 0.001;  // renderer (0.6 um at 600 ppi) and resampling together

DrawnPage isolated_discs() {
  DrawnPage page;
  for (const auto& [x, y] : {std::pair{-37.3, -55.1}, {31.7, -41.9}, {3.3, 12.7}, {-40.1, 58.3}}) {
    page.push_back({x, y, 2.6});
  }
  return page;
}

/// Pixel of a place of the page in a perfect scanner: turned clockwise by `angle_deg` about the
/// middle of a bed that is wider than the sheet by the margin.
Point<ScanPx> expected_px(double x_mm, double y_mm, int orientation_deg, double skew_deg,
                          double dpi) {
  const double a = (orientation_deg + skew_deg) * std::numbers::pi / 180.0;
  const bool lying = orientation_deg % 180 != 0;
  const double middle_x = (lying ? kHeightMm : kWidthMm) / 2 + kMarginMm;
  const double middle_y = (lying ? kWidthMm : kHeightMm) / 2 + kMarginMm;
  return {(middle_x + std::cos(a) * x_mm - std::sin(a) * y_mm) * dpi / 25.4,
          (middle_y + std::sin(a) * x_mm + std::cos(a) * y_mm) * dpi / 25.4};
}

RehearsalSettings settings_for(double dpi, int orientation_deg) {
  RehearsalSettings s = perfect_settings();
  s.scanner.dpi = dpi;
  s.scanner.margin_mm = kMarginMm;
  s.scanner.orientations = {orientation_deg};
  return s;
}

class IdealScan : public ::testing::TestWithParam<std::tuple<double, int>> {};

TEST_P(IdealScan, ShowsEveryDiscWithinAMicrometreOfItsPlace) {
  const auto [dpi, orientation] = GetParam();
  const DrawnPage page = isolated_discs();
  const TestJob test(kWidthMm, kHeightMm, {page, page});
  const RehearsalScans scans = test.run(settings_for(dpi, orientation));
  for (Side side : {Side::recto, Side::verso}) {
    const ScanImage image = picture(scans, 1, side);
    for (const DrawnDisc& d : page) {
      const auto at = expected_px(d.x_mm, d.y_mm, orientation, 0.0, dpi);
      const Darkness found = darkness_near(image, at, 3.4 * dpi / 25.4);
      EXPECT_NEAR((found.centre.x - at.x) * 25.4 / dpi, 0.0, kOwnErrorMm);
      EXPECT_NEAR((found.centre.y - at.y) * 25.4 / dpi, 0.0, kOwnErrorMm);
      const double area_mm2 = found.area_px * 25.4 / dpi * 25.4 / dpi;
      EXPECT_NEAR(area_mm2 / (std::numbers::pi * d.outer_mm * d.outer_mm), 1.0, 0.004);
    }
  }
}

TEST_P(IdealScan, StaysExactUnderSkewPassesAndScannerScale) {
  const auto [dpi, orientation] = GetParam();
  RehearsalSettings s = settings_for(dpi, orientation);
  s.scanner.skew_deg = 4.0;
  s.passes.mean = {0.4, -0.3, 2.0, 500, -700, 0.5};
  s.passes.lay_sd = {0.5, 0.5, 1.0, 0, 0, 0};
  s.scanner.scale_x_ppm = 3000;
  s.scanner.scale_y_ppm = -2000;
  const DrawnPage page = isolated_discs();
  const TestJob test(kWidthMm, kHeightMm, {page, page});
  const RehearsalScans scans = test.run(s);
  for (const ScanTruth& truth : scans.pictures) {
    const ScanImage image = picture(scans, 1, truth.side);
    const Passes& passes = scans.sheets[0].passes;
    for (const DrawnDisc& d : page) {
      const Point<SheetMm> in_sheet =
          truth.side == Side::recto ? relabel<SheetMm>(passes.front(Point<RectoMm>{d.x_mm, d.y_mm}))
                                    : relabel<SheetMm>(passes.back(Point<VersoMm>{d.x_mm, d.y_mm}));
      Point<ScanPx> at = expected_px(in_sheet.x, in_sheet.y, orientation, truth.pose.skew_deg, dpi);
      const double middle_x = image.width / 2.0, middle_y = image.height / 2.0;
      // The bed is rounded to whole pixels, the scanner's scale works from its exact middle.
      const double bed_x =
          ((orientation % 180 != 0 ? kHeightMm : kWidthMm) / 2 + kMarginMm) * dpi / 25.4;
      const double bed_y =
          ((orientation % 180 != 0 ? kWidthMm : kHeightMm) / 2 + kMarginMm) * dpi / 25.4;
      EXPECT_NEAR(bed_x, middle_x, 0.51);
      EXPECT_NEAR(bed_y, middle_y, 0.51);
      at.x = bed_x + (at.x - bed_x) * 1.003;
      at.y = bed_y + (at.y - bed_y) * 0.998;
      const Darkness found = darkness_near(image, at, 3.4 * dpi / 25.4);
      EXPECT_NEAR((found.centre.x - at.x) * 25.4 / dpi, 0.0, kOwnErrorMm);
      EXPECT_NEAR((found.centre.y - at.y) * 25.4 / dpi, 0.0, kOwnErrorMm);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(ResolutionsAndOrientations, IdealScan,
                         ::testing::Combine(::testing::Values(200.0, 300.0, 600.0),
                                            ::testing::Values(0, 90, 180, 270)));

TEST(Orientation, TurnsThePictureClockwise) {
  // One disc near the upper left corner of the page; clockwise it wanders round the picture.
  const DrawnPage page{{-35.0, -50.0, 5.0}};
  const TestJob test(kWidthMm, kHeightMm, {page, page});
  const std::array<std::pair<bool, bool>, 4> left_and_top = {
      {{true, true}, {false, true}, {false, false}, {true, false}}};
  for (int quarter = 0; quarter < 4; ++quarter) {
    const ScanImage image = picture(test.run(settings_for(100, 90 * quarter)), 1, Side::recto);
    double darkest = 255, x_share = 0, y_share = 0;
    const int edge = static_cast<int>((kMarginMm + 4) * 100 / 25.4);
    for (int y = edge; y < image.height - edge; ++y) {
      for (int x = edge; x < image.width - edge; ++x) {
        if (value_at(image, x, y) >= darkest) continue;
        darkest = value_at(image, x, y);
        x_share = x / static_cast<double>(image.width);
        y_share = y / static_cast<double>(image.height);
      }
    }
    EXPECT_LT(darkest, 10);
    EXPECT_EQ(x_share < 0.5, left_and_top[static_cast<std::size_t>(quarter)].first) << quarter;
    EXPECT_EQ(y_share < 0.5, left_and_top[static_cast<std::size_t>(quarter)].second) << quarter;
  }
}

TEST(Bed, PixelsOfPlacesAreTheInverseOfPlacesOfPixels) {
  ScannerSettings s;
  const Bed bed(220, 310, s, Random(7, "bed"));
  for (double x : {1.5, 900.25, 2500.0}) {
    for (double y : {0.5, 1700.75, 3600.0}) {
      const Point<ScanPx> back = bed.px_from_bed(bed.bed_from_px({x, y}));
      EXPECT_NEAR(back.x, x, 1e-7);
      EXPECT_NEAR(back.y, y, 1e-7);
    }
  }
}

TEST(Bed, WobbleHasTheStatedSize) {
  ScannerSettings s = perfect_settings().scanner;
  s.wobble_um = 30;
  double sum = 0;
  int count = 0;
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    const Bed bed(210, 297, s, Random(seed, "bed"));
    for (double y = 0.5; y < 297; y += 0.5, ++count) {
      const double off = bed.row_part(y).y - y;
      sum += off * off;
    }
  }
  EXPECT_NEAR(std::sqrt(sum / count), 0.030, 0.003);
}

}  // namespace
}  // namespace versolay::rehearse
