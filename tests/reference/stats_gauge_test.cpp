// Repeatability and distinct categories against published worked examples.
#include <gtest/gtest.h>

#include <cmath>

#include "stats/gauge.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

// SOURCE  NIST/SEMATECH e-Handbook 2.4.4.3, "Level-3 standard deviations for a single gauge pooled
// over check standards" (five check standards, two runs each; itl.nist.gov, mpc443.htm). The table
// prints its entries with four decimals and sums of squares with seven.
TEST(PooledSd, ReproducesTheHandbooksTableOfTheResistivityProbes) {
  const PooledSd s = pooled_sd({{0.0223, 1}, {0.0027, 1}, {0.0289, 1}, {0.0133, 1}, {0.0205, 1}});
  EXPECT_EQ(s.dof, 5);
  EXPECT_NEAR(s.dof * s.sd * s.sd, 0.0019370, 2e-6);
  EXPECT_NEAR(s.sd, 0.0197, 5e-5);
}

// SOURCE  NIST/SEMATECH e-Handbook 2.4.4.4, "Example of repeatability calculations": sums of
// squares of five wafers, 60 degrees of freedom each, with their sum 3.17635 for 300 (mpc444.htm).
TEST(PooledSd, ReproducesTheHandbooksRepeatability) {
  std::vector<PooledSd> wafers;
  for (const double squares : {0.48115, 0.69209, 0.48483, 1.21752, 0.30076}) {
    wafers.push_back({std::sqrt(squares / 60), 60});
  }
  const PooledSd s = pooled_sd(wafers);
  EXPECT_EQ(s.dof, 300);
  EXPECT_NEAR(s.dof * s.sd * s.sd, 3.17635, 1e-9);
  EXPECT_NEAR(s.sd, std::sqrt(3.17635 / 300), 1e-12);
}

// SOURCE  Worked example of AIAG, Measurement Systems Analysis, 3rd ed., chapter III B (from
// memory): part variation 1.10456, repeatability and reproducibility 0.30575: five distinct
// categories.
TEST(DistinctCategories, ReproducesTheManualsExample) {
  EXPECT_EQ(distinct_categories(1.10456, 0.30575), 5);
  EXPECT_EQ(distinct_categories(0.0, 0.1), 0);
}

// SOURCE  Dyestuff of Davies & Goldsmith as R package lme4 has it (six batches, five yields each):
// REML variances 1764.05 between and 2451.25 within, by lme4 in R 4.2.2.
TEST(GaugeStudy, ReproducesRemlOnDyestuff) {
  const std::vector<std::vector<double>> batches = {
      {1545, 1440, 1440, 1520, 1580}, {1540, 1555, 1490, 1560, 1495},
      {1595, 1550, 1605, 1510, 1560}, {1445, 1440, 1595, 1465, 1545},
      {1595, 1630, 1515, 1635, 1625}, {1520, 1455, 1450, 1480, 1445}};
  const auto study = gauge_study(batches);
  ASSERT_TRUE(study && study->process);
  EXPECT_EQ(study->repeatability.dof, 24);
  EXPECT_NEAR(study->repeatability.sd, std::sqrt(2451.25), 1e-9);
  EXPECT_NEAR(study->process->sd, std::sqrt(1764.05), 1e-6);
  EXPECT_NEAR(study->process->share, 2451.25 / (2451.25 + 1764.05), 1e-9);
  EXPECT_EQ(study->process->distinct_categories, 1);  // 1.41 * 42.0 / 49.5
  EXPECT_TRUE(study->enough_repeats);
}

TEST(GaugeStudy, FewRepeatsAreCalledFew) {
  const auto study = gauge_study({{1.0, 1.1}, {2.0, 2.2}, {3.0}, {4.0, 4.1}});
  ASSERT_TRUE(study && study->process);
  EXPECT_EQ(study->repeatability.dof, 3);
  EXPECT_FALSE(study->enough_repeats);
  EXPECT_GT(study->sd_high, 2 * study->repeatability.sd);
}

TEST(GaugeStudy, NothingMeasuredTwiceTellsNothing) {
  EXPECT_FALSE(gauge_study({{1.0}, {2.0}, {3.0}}));
  EXPECT_FALSE(gauge_study({}));
}

TEST(GaugeStudy, OneItemTellsTheRepeatabilityAlone) {
  const auto study = gauge_study({{1.0, 2.0, 3.0}});
  ASSERT_TRUE(study);
  EXPECT_NEAR(study->repeatability.sd, 1.0, 1e-12);
  EXPECT_FALSE(study->process);
}

// Items that agree better than the gauge can tell: a bound, no spread.
TEST(GaugeStudy, ItemsThatCannotBeToldApartGetABound) {
  const auto study = gauge_study({{1.0, 3.0}, {1.5, 2.5}, {3.0, 1.1}, {2.4, 1.4}});
  ASSERT_TRUE(study && study->process);
  EXPECT_FALSE(study->process->distinguishable);
  EXPECT_EQ(study->process->sd, 0.0);
  EXPECT_EQ(study->process->distinct_categories, 0);
  EXPECT_GT(study->process->sd_high, 0.0);
}

/// Share of the studies in which an interval holds the truth; 2,000 of each seed, standard error
/// 0.005. Eight items measured three times, one of them once.
class GaugeMonteCarlo : public testing::TestWithParam<std::uint64_t> {};
INSTANTIATE_TEST_SUITE_P(Seeds, GaugeMonteCarlo, testing::Values(1, 2, 3));

TEST_P(GaugeMonteCarlo, IntervalsHoldTheTruthAsOftenAsTheySay) {
  constexpr int kStudies = 2000;
  constexpr double kProcess = 0.10, kGauge = 0.03;
  Random random(GetParam(), 0);
  int gauge_held = 0, bound_held = 0;
  double variance = 0.0;
  for (int i = 0; i < kStudies; ++i) {
    std::vector<std::vector<double>> items;
    for (int item = 0; item < 8; ++item) {
      const double truth = kProcess * random.normal();
      std::vector<double> values;
      for (int m = 0; m < (item == 0 ? 1 : 3); ++m)
        values.push_back(truth + kGauge * random.normal());
      items.push_back(values);
    }
    const auto study = gauge_study(items);
    gauge_held += study->sd_low <= kGauge && kGauge <= study->sd_high ? 1 : 0;
    bound_held += study->process->sd_high >= kProcess ? 1 : 0;
    variance += study->process->sd * study->process->sd / kStudies;
  }
  EXPECT_NEAR(gauge_held / double{kStudies}, 0.95, 0.02);
  EXPECT_GE(bound_held / double{kStudies}, 0.93);
  EXPECT_NEAR(variance, kProcess * kProcess, 0.05 * kProcess * kProcess);
}

}  // namespace
}  // namespace versolay::stats
