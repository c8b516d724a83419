#include <gmock/gmock.h>

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "stats/oversize_bound.h"
#include "stats/tolerance.h"

namespace versolay::stats {
namespace {

/// Feeds of which only dx varies, with sd 1 mm, read on one tiny card in the middle of the page.
FutureCards one_dimension(int n, int dof) {
  FutureCards future;
  future.feeds.mean = Eigen::VectorXd::Zero(6);
  future.feeds.scatter = Eigen::MatrixXd::Zero(6, 6);
  future.feeds.scatter(0, 0) = dof;
  future.feeds.n = n;
  future.feeds.dof = dof;
  future.cards.width_mm = 1e-3;
  future.cards.height_mm = 1e-3;
  future.cards.centres = {{0.0, 0.0}};
  return future;
}

FutureCards anisotropic(int n) {
  FutureCards future = one_dimension(n, n - 1);
  const RegistrationVector sd(0.2, 0.1, 0.6, 0.0, 0.0, 0.0);
  future.feeds.scatter =
      (sd * sd.transpose())
          .cwiseProduct(RegistrationMatrix::Identity() * 0.6 + RegistrationMatrix::Constant(0.4)) *
      (n - 1);
  future.cards.width_mm = 63;
  future.cards.height_mm = 88;
  for (int row = -1; row <= 1; ++row) {
    for (int column = -1; column <= 1; ++column) {
      future.cards.centres.push_back({column * 63.0, row * 88.0});
    }
  }
  future.cards.centres.erase(future.cards.centres.begin());
  return future;
}

constexpr MonteCarlo kQuick{.populations = 2000, .sheets = 500, .seed = 4};

TEST(OversizeFactor, InOneDimensionIsTheExactToleranceFactor) {
  struct Case {
    int n, dof;
    double coverage, confidence;
  };
  std::uint64_t seed = 100;
  for (const Case& c : {Case{5, 4, .95, .90}, Case{8, 7, .95, .90}, Case{8, 7, .99, .90},
                        Case{20, 19, .95, .95}, Case{2, 20, .95, .90}, Case{10, 29, .95, .90}}) {
    const double factor =
        oversize_factor(one_dimension(c.n, c.dof), {1, 1}, {c.coverage, c.confidence},
                        {.populations = 8000, .sheets = 1000, .seed = ++seed});
    const double exact = two_sided_factor({static_cast<double>(c.n), static_cast<double>(c.dof)},
                                          c.coverage, c.confidence);
    EXPECT_NEAR(factor / exact, 1.0, 0.025) << "n " << c.n << " dof " << c.dof;
  }
}

TEST(OversizeFactor, DoesNotDependOnTheNumberOfThreads) {
  for (bool whole_sheets : {false, true}) {
    FutureCards future = anisotropic(8);
    future.whole_sheets = whole_sheets;
    future.cards.cut_sd_mm = 0.05;
    future.cards.local_sd_mm = 0.02;
    MonteCarlo mc = kQuick;
    mc.threads = 1;
    const double alone = oversize_factor(future, {1, 1}, {}, mc);
    const Yield yield_alone = yield_of(future, {0.4, 0.4}, mc);
    for (int threads : {2, 3, 7}) {
      mc.threads = threads;
      EXPECT_EQ(oversize_factor(future, {1, 1}, {}, mc), alone);
      EXPECT_EQ(yield_of(future, {0.4, 0.4}, mc).cards, yield_alone.cards);
    }
  }
}

TEST(OversizeFactor, ChangesWithTheSeedByNoMoreThanTheMonteCarloNoise) {
  MonteCarlo mc{.populations = 4000, .sheets = 500, .seed = 1};
  const double first = oversize_factor(anisotropic(8), {1, 1}, {}, mc);
  for (std::uint64_t seed : {2U, 3U}) {
    mc.seed = seed;
    const double other = oversize_factor(anisotropic(8), {1, 1}, {}, mc);
    EXPECT_NE(other, first);
    EXPECT_NEAR(other / first, 1.0, 0.04);  // 4 standard errors of a difference
  }
}

TEST(OversizeFactor, GrowsWithCoverageConfidenceAndCountingBySheet) {
  FutureCards future = anisotropic(8);
  const double plain = oversize_factor(future, {1, 1}, {.95, .90}, kQuick);
  EXPECT_GT(oversize_factor(future, {1, 1}, {.99, .90}, kQuick), 1.1 * plain);
  EXPECT_GT(oversize_factor(future, {1, 1}, {.95, .95}, kQuick), 1.05 * plain);
  future.whole_sheets = true;
  EXPECT_GT(oversize_factor(future, {1, 1}, {.95, .90}, kQuick), 1.1 * plain);
}

TEST(OversizeFactor, CoversAnOffsetThatIsNotCorrected) {
  FutureCards future = anisotropic(30);
  future.feeds.mean[0] = 1.0;
  future.correction[0] = 1.0;
  const double corrected = oversize_factor(future, {1, 1}, {}, kQuick);
  future.correction[0] = 0.0;
  const double as_it_is = oversize_factor(future, {1, 1}, {}, kQuick);
  // One-sided now: 1 mm plus about 1.64 instead of 1.96 standard deviations.
  EXPECT_GT(as_it_is, 1.0 + 0.6 * corrected);
  EXPECT_LT(as_it_is, 1.0 + corrected);
}

TEST(OversizeFactor, ShrinksWhenTheMeasurementIsTakenOut) {
  FutureCards future = anisotropic(20);
  const double observed = oversize_factor(future, {1, 1}, {}, kQuick);
  future.measurement = future.feeds.covariance() / 2;
  const double printer = oversize_factor(future, {1, 1}, {}, kQuick);
  EXPECT_LT(printer, 0.9 * observed);
  EXPECT_GT(printer, 0.6 * observed);
}

TEST(OversizeFactor, WorksWithFewerFeedsThanComponents) {
  FutureCards future = anisotropic(20);
  Eigen::MatrixXd rows = Eigen::MatrixXd::Random(4, 6);  // rank 3 of 6
  future.feeds = sample_of(rows);
  future.correction = future.feeds.mean;
  const double factor = oversize_factor(future, {1, 1}, {}, kQuick);
  EXPECT_GT(factor, 1.0);
  EXPECT_TRUE(std::isfinite(factor));
}

TEST(OversizeFactor, OfTheCutAloneIsTheQuantileOfFourIndependentEdges) {
  // Pr(all four edges inside t) = Phi(t / sd)^4.
  FutureCards future = one_dimension(1000000, 1000000);
  future.feeds.scatter *= 1e-12;
  future.cards.centres.resize(9, {0.0, 0.0});
  future.cards.cut_sd_mm = 0.1;
  const double expected = 0.1 * quantile(boost::math::normal(), std::pow(0.95, 0.25));
  EXPECT_NEAR(oversize_factor(future, {1, 1}, {.95, .5}, kQuick) / expected, 1.0, 0.01);
}

TEST(PerAxisDirection, FollowsTheSpreadOfTheTwoAxes) {
  FutureCards future = one_dimension(20, 19);
  future.feeds.scatter(1, 1) = 19 * 0.25;  // sd 1 and 0.5
  const Eigen::Vector2d h = per_axis_direction(future, 0.95, {});
  const double z = quantile(boost::math::normal(), 1 - 0.025 / 2);
  EXPECT_NEAR(h.x(), z, 0.03 * z);
  EXPECT_NEAR(h.y(), z / 2, 0.03 * z / 2);
}

TEST(Yield, AtTheAdvisedOversizeFallsShortOfTheCoverageAsOftenAsPromised) {
  const FutureCards future = anisotropic(8);
  const double factor = oversize_factor(future, {1, 1}, {.95, .90}, kQuick);
  const Yield yield = yield_of(future, {factor, factor}, kQuick);
  const auto kept = std::count_if(yield.cards.begin(), yield.cards.end(),
                                  [](double share) { return share >= 0.95; });
  EXPECT_NEAR(static_cast<double>(kept) / kQuick.populations, 0.90, 0.002);
}

TEST(Yield, GrowsWithTheOversizeAndAWholeSheetIsRarerThanAGoodCard) {
  const FutureCards future = anisotropic(8);
  double last = -1.0;
  for (double mm : {0.0, 0.1, 0.2, 0.4, 0.8}) {
    const Yield yield = yield_of(future, {mm, mm}, kQuick);
    const double cards = band_of(yield.cards).mean;
    EXPECT_GT(cards, last);
    EXPECT_LE(band_of(yield.sheets).mean, cards);
    last = cards;
  }
}

TEST(OversizeBounds, AreThoseOfEachPromiseAlone) {
  const FutureCards future = anisotropic(8);
  const std::vector<Promise> promises = {{0.95, 0.80}, {0.95, 0.95}, {0.90, 0.90}};
  // So precise that the promises stop after different numbers of populations.
  const MonteCarlo mc{
      .populations = 6000, .sheets = 200, .seed = 5, .threads = 2, .precision = 0.01};
  const std::vector<OversizeBound> together = oversize_bounds(future, {1, 1}, promises, mc);
  std::vector<std::size_t> populations;
  for (std::size_t i = 0; i < promises.size(); ++i) {
    const OversizeBound alone = oversize_bound(future, {1, 1}, promises[i], mc);
    EXPECT_EQ(together[i].factor, alone.factor);
    EXPECT_EQ(together[i].standard_error, alone.standard_error);
    EXPECT_EQ(together[i].needed, alone.needed);
    populations.push_back(alone.needed.size());
  }
  EXPECT_THAT(populations, ::testing::Contains(::testing::Ne(populations.front())));
}

}  // namespace
}  // namespace versolay::stats
