#include <gtest/gtest.h>

#include <cmath>

#include "measure/scanner_map.h"
#include "support/noise.h"
#include "target/geometry.h"

namespace versolay {
namespace {

using testing_support::Noise;

/// A scanner with a wobbling carriage and a bent sensor. Not the model of the estimator: sines and
/// a parabola, not random functions.
struct CrookedScanner {
  double wobble_mm;
  double wave_mm;
  double phase;
  double bend_mm;
  double turn;

  Point<ScanPx> operator()(const Point<PageMm>& p) const {
    Eigen::Matrix2d rotation;
    rotation << std::cos(turn), -std::sin(turn), std::sin(turn), std::cos(turn);
    Eigen::Vector2d bed = rotation * p.vec();
    bed.y() += wobble_mm * std::sin(2 * M_PI * bed.y() / wave_mm + phase) +
               bend_mm * bed.x() * bed.x() / 1e4;
    return Point<ScanPx>::from(bed * 11.811 + Eigen::Vector2d(1300, 1800));
  }
};

std::vector<Point<PageMm>> ring_places() {
  std::vector<Point<PageMm>> places;
  for (const Mark& mark : target_geometry(parse_paper("a4"), Turn::long_edge).marks) {
    if (mark.kind == MarkKind::ring && mark.side == Side::recto) places.push_back(mark.at);
  }
  return places;
}

double rms_error_mm(double turn, bool with_outliers, double* chi2_per_place) {
  const std::vector<Point<PageMm>> holes = {{-40, -136.5}, {40, -136.5}, {40, 136.5}, {-40, 136.5}};
  double sum = 0.0;
  double chi2 = 0.0;
  int count = 0;
  for (unsigned seed = 1; seed <= 40; ++seed) {
    Noise noise(seed);
    const CrookedScanner scanner{0.030 * std::sqrt(2.0), 20.0 + seed, seed * 0.7, 0.06, turn};
    std::vector<PagePair> rings;
    for (const auto& p : ring_places()) {
      PagePair pair{scanner(p), p};
      pair.scan.x += 0.003 * 11.811 * noise();
      pair.scan.y += 0.003 * 11.811 * noise();
      rings.push_back(pair);
    }
    if (with_outliers) {
      for (std::size_t i = seed % 10; i < rings.size(); i += 10) rings[i].scan.x += 4.0;
    }
    const auto map = ScannerMap::fit(rings);
    EXPECT_TRUE(map);
    if (!map) return 1.0;
    std::vector<Point<ScanPx>> seen;
    for (const auto& p : holes) seen.push_back(scanner(p));
    const PagePlaces places = map->page_places(seen);
    for (std::size_t i = 0; i < holes.size(); ++i) {
      const Eigen::Vector2d error = places.at[i].vec() - holes[i].vec();
      sum += error.squaredNorm();
      const auto k = static_cast<Eigen::Index>(2 * i);
      chi2 += error.dot(places.covariance_mm2.block<2, 2>(k, k).inverse() * error);
      count += 2;
    }
  }
  *chi2_per_place = chi2 / count;
  return std::sqrt(sum / count);
}

// A straight scanner map leaves the whole wobble, 30 um rms, at the holes.
TEST(ScannerMap, SeesThroughAWobbleOf30MicrometresInEveryOrientation) {
  for (const double turn : {0.0, 0.02, M_PI / 2, M_PI, -M_PI / 2 + 0.05}) {
    double chi2 = 0.0;
    EXPECT_LT(rms_error_mm(turn, false, &chi2), 0.008) << turn;
    EXPECT_GT(chi2, 0.3) << turn;
    EXPECT_LT(chi2, 2.0) << turn;
  }
}

TEST(ScannerMap, LeavesOutRingsThatAreWrong) {
  double chi2 = 0.0;
  EXPECT_LT(rms_error_mm(0.0, true, &chi2), 0.010);
}

TEST(ScannerMap, TellsHowFarOffALeftOutRingIs) {
  Noise noise(3);
  std::vector<PagePair> rings;
  for (const auto& p : ring_places()) {
    rings.push_back({Point<ScanPx>::from(11.811 * p.vec() + noise.vector(2, 0.02)), p});
  }
  rings[20].scan.x += 0.2 * 11.811;
  const auto map = ScannerMap::fit(rings);
  ASSERT_TRUE(map);
  EXPECT_FALSE(map->kept()[20]);
  const auto errors_mm = map->prediction_errors_mm(rings);
  ASSERT_EQ(errors_mm.size(), rings.size());
  for (std::size_t i = 0; i < rings.size(); ++i) {
    EXPECT_NEAR(errors_mm[i], i == 20 ? 0.2 : 0.0, 0.02) << i;
  }
}

TEST(ScannerMap, ReproducesAnAffineScannerExactly) {
  const Affine<ScanPx, PageMm> affine((Eigen::Matrix2d() << 11.9, 0.4, -0.3, 11.7).finished(),
                                      {1200, 1700});
  std::vector<PagePair> rings;
  for (const auto& p : ring_places()) rings.push_back({affine(p), p});
  const auto map = ScannerMap::fit(rings);
  ASSERT_TRUE(map);
  const Point<PageMm> hole{40, -136.5};
  const auto places = map->page_places({affine(hole)});
  EXPECT_NEAR(places.at[0].x, hole.x, 2e-5);
  EXPECT_NEAR(places.at[0].y, hole.y, 2e-5);
}

TEST(ScannerMap, NeedsADozenRings) {
  EXPECT_FALSE(ScannerMap::fit({}));
  std::vector<PagePair> on_a_line;
  for (int i = 0; i < 30; ++i) on_a_line.push_back({{10.0 * i, 5.0 * i}, {2.0 * i, 1.0 * i}});
  EXPECT_FALSE(ScannerMap::fit(on_a_line));
}

}  // namespace
}  // namespace versolay
