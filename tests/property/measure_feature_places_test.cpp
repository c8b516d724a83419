// What is stated of the places of holes and edges, when the carriage of the scanner jerks.
#include <gtest/gtest.h>

#include <Eigen/Eigenvalues>
#include <cmath>
#include <string>

#include "measure/feature_places.h"
#include "support/noise.h"

namespace versolay {
namespace {

constexpr double kPxPerMm = 300 / 25.4;

struct Page {
  ScannerMap map;
  PageView view;
};

/// Upright, ninety rings, a scanner without faults.
Page scanned_page() {
  testing_support::Noise noise(1);
  std::vector<PagePair> rings;
  for (int i = 0; i < 90; ++i) {
    const Eigen::Vector2d at(20 * (i % 9) - 80.0, 28 * (i / 9) - 125.0);
    const Eigen::Vector2d off(0.002 * noise(), 0.002 * noise());
    rings.push_back({Point<ScanPx>::from(kPxPerMm * (at + off + Eigen::Vector2d(150, 150))),
                     Point<PageMm>::from(at)});
  }
  return {ScannerMap::fit(rings).value(), PageView::from_rings(rings, 3600, 3600).value()};
}

/// Four of a kind, spread over the page.
std::vector<SeenFeature> four(FeatureKind kind) {
  std::vector<SeenFeature> seen;
  for (const auto& [x, y] : {std::pair{-40, -120}, {40, -119}, {40, 121}, {-40, 123}}) {
    SeenFeature feature;
    feature.feature.kind = kind;
    feature.feature.seen = {kPxPerMm * (x + 150.0), kPxPerMm * (y + 150.0)};
    feature.sd_mm = 0.001;
    seen.push_back(feature);
  }
  return seen;
}

/// Standard deviation of the mean of all features, x and y.
Eigen::Vector2d sd_of_the_mean_mm(const FeaturePlaces& places) {
  const auto n = static_cast<Eigen::Index>(places.features.size());
  Eigen::MatrixXd mean(2, 2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    mean.middleCols<2>(2 * i) = Eigen::Matrix2d::Identity() / static_cast<double>(n);
  }
  return (mean * places.scan_covariance_mm2 * mean.transpose()).diagonal().cwiseSqrt();
}

class FeaturePlacesOf : public testing::TestWithParam<FeatureKind> {};

TEST_P(FeaturePlacesOf, AGearIsAllowedForAlongTheCarriageAndDoesNotAverageAway) {
  const Page page = scanned_page();
  const auto stated = [&](double jerk_mm) {
    return sd_of_the_mean_mm(feature_places(four(GetParam()), page.map, page.view, jerk_mm));
  };
  constexpr double kJerkMm = 0.050;
  EXPECT_NEAR(stated(kJerkMm).x(), stated(0.0).x(), 1e-9);
  // Four that went their own ways would leave half of the jerk, and less in a round hole.
  EXPECT_GT(stated(kJerkMm).y(), kJerkMm / 2);
  EXPECT_LT(stated(kJerkMm).y(), kJerkMm);
  EXPECT_LT(stated(0.0).y(), 0.012);
}

TEST_P(FeaturePlacesOf, HaveACovarianceThatIsOne) {
  const Page page = scanned_page();
  for (const double jerk_mm : {0.0, 0.020, 0.050}) {
    const FeaturePlaces places = feature_places(four(GetParam()), page.map, page.view, jerk_mm);
    const Eigen::MatrixXd& c = places.scan_covariance_mm2;
    EXPECT_LT((c - c.transpose()).cwiseAbs().maxCoeff(), 1e-12);
    EXPECT_GT(c.selfadjointView<Eigen::Lower>().eigenvalues().minCoeff(), 0.0);
  }
}

INSTANTIATE_TEST_SUITE_P(Kinds, FeaturePlacesOf,
                         testing::Values(FeatureKind::punch, FeatureKind::prick, FeatureKind::edge),
                         [](const auto& kind) {
                           return std::string(kind.param == FeatureKind::punch   ? "punches"
                                              : kind.param == FeatureKind::prick ? "pricks"
                                                                                 : "edges");
                         });

}  // namespace
}  // namespace versolay
