#include <gtest/gtest.h>

#include <cmath>

#include "measure/ring.h"
#include "measure/smear.h"

namespace versolay {
namespace {

constexpr RingSize kSize{2.561, 2.137};

/// An image of one ring, every pixel the mean of 8 x 8 samples, light falling off to the right.
GreyImage drawn_ring(const Affine<PageMm, ScanPx>& page_from_scan, const Point<PageMm>& centre,
                     int side, double slope) {
  GreyImage image;
  image.width = image.height = side;
  image.pixels.resize(static_cast<std::size_t>(side) * static_cast<std::size_t>(side));
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      double ink = 0.0;
      for (int k = 0; k < 64; ++k) {
        const Point<ScanPx> p{x + (k % 8 + 0.5) / 8, y + (k / 8 + 0.5) / 8};
        const double r = (page_from_scan(p).vec() - centre.vec()).norm();
        ink += r < kSize.outer_radius_mm && r > kSize.inner_radius_mm ? 1.0 / 64 : 0.0;
      }
      const double paper = 230.0 * (1.0 - slope * x / side);
      image.row(y)[x] = static_cast<std::uint8_t>(std::lround(paper * (1.0 - 0.9 * ink)));
    }
  }
  return image;
}

struct RingCase {
  double dpi;
  double turn_deg;
  double slope;
};
void PrintTo(const RingCase& c, std::ostream* out) {
  *out << c.dpi << " dpi, " << c.turn_deg << " degrees, slope " << c.slope;
}
class RingTest : public testing::TestWithParam<RingCase> {};

INSTANTIATE_TEST_SUITE_P(Scans, RingTest,
                         testing::Values(RingCase{200, 0, 0}, RingCase{300, 0, 0},
                                         RingCase{300, 93, 0}, RingCase{300, 180, 0.3},
                                         RingCase{600, 275, 0}, RingCase{600, 3, 0.3}));

TEST_P(RingTest, IsFoundToAMicrometreWhereverThePixelsFall) {
  const RingCase& c = GetParam();
  const double px_per_mm = c.dpi / 25.4;
  const int side = static_cast<int>(12 * px_per_mm);
  const double turn = c.turn_deg * std::acos(-1.0) / 180;
  Eigen::Matrix2d linear;
  linear << std::cos(turn), -std::sin(turn), std::sin(turn), std::cos(turn);
  for (const Eigen::Vector2d& phase : {Eigen::Vector2d(0, 0), Eigen::Vector2d(0.31, 0.77)}) {
    const Affine<ScanPx, PageMm> scan_from_page(linear * px_per_mm,
                                                Eigen::Vector2d(side / 2.0, side / 2.0) + phase);
    const Point<PageMm> centre{0.013, -0.021};
    const GreyImage image = drawn_ring(scan_from_page.inverse(), centre, side, c.slope);
    // Expected half a millimetre off, and 2 % too large.
    const Affine<ScanPx, PageMm> rough(scan_from_page.linear() * 1.02, scan_from_page.offset());
    const auto ring = find_ring(Sampler(image), rough, {0.4, 0.3}, kSize, 1.0);
    ASSERT_TRUE(ring);
    const Eigen::Vector2d error_mm =
        (ring->centre.vec() - scan_from_page(centre).vec()) / px_per_mm;
    EXPECT_LT(error_mm.norm(), c.dpi < 300 || c.slope > 0 ? 0.002 : 0.001);
  }
}

TEST(Ring, IsNotSeenOnPlainPaperOrBesideTheImage) {
  GreyImage paper{200, 200, std::vector<std::uint8_t>(200 * 200, 230)};
  const Affine<ScanPx, PageMm> map(Eigen::Matrix2d::Identity() * 11.8, {100, 100});
  EXPECT_FALSE(find_ring(Sampler(paper), map, {0, 0}, kSize, 1.0));
  EXPECT_FALSE(find_ring(Sampler(paper), map, {40, 0}, kSize, 1.0));
}

/// As a sensor sees it that keeps a part of each line.
GreyImage lagging(const GreyImage& image, double kept) {
  GreyImage out = image;
  std::vector<double> line(image.row(0), image.row(0) + image.width);
  for (int y = 0; y < image.height; ++y) {
    for (int x = 0; x < image.width; ++x) {
      double& light = line[static_cast<std::size_t>(x)];
      light = kept * light + (1 - kept) * image.row(y)[x];
      out.row(y)[x] = static_cast<std::uint8_t>(std::lround(light));
    }
  }
  return out;
}

/// Each pixel the mean of its neighbours, equally on all sides.
GreyImage blurred(const GreyImage& image) {
  GreyImage out = image;
  for (int y = 1; y + 1 < image.height; ++y) {
    for (int x = 1; x + 1 < image.width; ++x) {
      int sum = 0;
      for (int k = 0; k < 9; ++k) sum += image.row(y + k / 3 - 1)[x + k % 3 - 1];
      out.row(y)[x] = static_cast<std::uint8_t>(std::lround(sum / 9.0));
    }
  }
  return out;
}

TEST(Ring, HasATailWhereTheSensorIsSlow) {
  constexpr double kPxPerMm = 150 / 25.4;
  const Affine<ScanPx, PageMm> scan_from_page(Eigen::Matrix2d::Identity() * kPxPerMm, {36.2, 35.7});
  const GreyImage sharp = drawn_ring(scan_from_page.inverse(), {0, 0}, 72, 0.2);
  const auto tail_of = [&](const GreyImage& image) {
    const auto ring = find_ring(Sampler(image), scan_from_page, {0, 0}, kSize, 1.0);
    return ring ? ring->tail : Eigen::Vector2d(NAN, NAN);
  };
  EXPECT_LT(tail_of(sharp).norm(), 0.02);
  EXPECT_LT(tail_of(blurred(sharp)).norm(), 0.02);
  EXPECT_FALSE(is_smeared(smear_of({tail_of(blurred(sharp))})));
  double before = 0.02;
  for (const double kept : {0.4, 0.6, 0.7}) {
    const Eigen::Vector2d tail = tail_of(lagging(sharp, kept));
    EXPECT_GT(tail.y(), before) << kept;  // below it: lines come after each other downwards
    EXPECT_LT(std::abs(tail.x()), 0.02);
    before = tail.y();
  }
  EXPECT_TRUE(is_smeared(smear_of({tail_of(lagging(sharp, 0.7))})));
}

}  // namespace
}  // namespace versolay
