// Estimators and tests against published examples and data sets of R.
#include <gmock/gmock.h>

#include <algorithm>
#include <array>

#include "stats/monitoring.h"
#include "stats/normality.h"
#include "stats/outliers.h"
#include "stats/power.h"
#include "stats/two_sample.h"
#include "stats/variance_components.h"
#include "support/iris.h"

namespace versolay::stats {
namespace {

Sample sample_of_values(std::initializer_list<double> values) {
  Eigen::MatrixXd m(static_cast<Eigen::Index>(values.size()), 1);
  Eigen::Index row = 0;
  for (double v : values) m(row++, 0) = v;
  return sample_of(m);
}

template <std::size_t Rows>
Eigen::MatrixXd pairs_of(const std::array<std::array<double, 2>, Rows>& values) {
  Eigen::MatrixXd m(Rows, 2);
  for (std::size_t r = 0; r < Rows; ++r)
    m.row(static_cast<Eigen::Index>(r)) << values[r][0], values[r][1];
  return m;
}

// SOURCE  B. Rosner, Technometrics 25(2), 1983, as in the NIST/SEMATECH e-Handbook 1.3.5.17.3 (data
// from memory; the statistics were recomputed in R 4.2.2). The handbook finds three outliers.
const std::vector<double> kRosner = {
    -0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56,
    1.58,  1.65, 1.69, 1.70, 1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.10,
    2.14,  2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.40, 2.47, 2.54, 2.62, 2.64, 2.90, 2.92,
    2.92,  2.93, 3.21, 3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01};

TEST(GeneralisedEsd, FindsTheThreeOutliersOfRosner) {
  const std::vector<EsdStep> steps = generalised_esd(kRosner, 10, 0.05);
  EXPECT_NEAR(steps[0].statistic, 3.118906, 1e-6);
  EXPECT_NEAR(steps[0].critical, 3.158794, 1e-6);
  EXPECT_NEAR(steps[2].statistic, 3.179424, 1e-6);
  EXPECT_NEAR(steps[2].critical, 3.143890, 1e-6);
  // The first step alone would have hidden all three.
  EXPECT_LT(steps[0].statistic, steps[0].critical);
  EXPECT_EQ(outliers_found(steps), 3);
}

// SOURCE  NIST/SEMATECH e-Handbook 1.3.5.17.1 (data from memory; R 4.2.2).
TEST(Grubbs, ReproducesTheHandbookExample) {
  const std::vector<double> values = {199.31, 199.53, 200.19, 200.82,
                                      201.92, 201.95, 202.18, 245.57};
  EXPECT_NEAR(generalised_esd(values, 1, 0.05)[0].statistic, 2.468764611, 1e-9);
  EXPECT_NEAR(grubbs_critical(8, 0.05), 2.126645087, 1e-9);
}

// SOURCE  Dyestuff and Dyestuff2 of Davies & Goldsmith and Box & Tiao, by R package lme4 (REML).
TEST(VarianceComponents, AgreeWithRemlOnDyestuff) {
  const std::array batches = {sample_of_values({1545, 1440, 1440, 1520, 1580}),
                              sample_of_values({1540, 1555, 1490, 1560, 1495}),
                              sample_of_values({1595, 1550, 1605, 1510, 1560}),
                              sample_of_values({1445, 1440, 1595, 1465, 1545}),
                              sample_of_values({1595, 1630, 1515, 1635, 1625}),
                              sample_of_values({1520, 1455, 1450, 1480, 1445})};
  const VarianceComponents v = variance_components(batches, 0);
  EXPECT_NEAR(pooled(batches).mean[0], 1527.5, 1e-9);
  EXPECT_NEAR(v.between, 1764.05, 1e-8);
  EXPECT_NEAR(v.within, 2451.25, 1e-8);
  EXPECT_LT(v.between_low, v.between);
  EXPECT_GT(v.between_high, v.between);
}

TEST(VarianceComponents, AreClippedAtZeroLikeRemlOnDyestuff2) {
  const std::array batches = {sample_of_values({7.298, 3.846, 2.434, 9.566, 7.990}),
                              sample_of_values({5.220, 6.556, 0.608, 11.788, -0.892}),
                              sample_of_values({0.110, 10.386, 13.434, 5.510, 8.166}),
                              sample_of_values({2.212, 4.852, 7.092, 9.288, 4.980}),
                              sample_of_values({0.282, 9.014, 4.458, 9.446, 7.198}),
                              sample_of_values({1.722, 4.782, 8.106, 0.758, 3.758})};
  const VarianceComponents v = variance_components(batches, 0);
  EXPECT_EQ(v.between, 0.0);
  EXPECT_NEAR(v.within, 13.80630963, 1e-7);
}

// SOURCE  formulas of Krishnamoorthy & Yu, Statistics & Probability Letters 66, 2004, computed in R
// 4.2.2; data: made up, and the irises.
TEST(KrishnamoorthyYu, AgreesWithR) {
  const Sample x = sample_of(pairs_of<5>({{{1, 2}, {2, 1}, {3, 4}, {4, 3}, {6, 5}}}));
  const Sample y = sample_of(pairs_of<4>({{{3, 7}, {5, 6}, {4, 9}, {8, 10}}}));
  const TwoSampleT2 small = krishnamoorthy_yu(x, y);
  EXPECT_NEAR(small.t2, 23.73695961, 1e-7);
  EXPECT_NEAR(small.nu, 5.440063784, 1e-8);
  EXPECT_NEAR(small.f, 9.686799539, 1e-8);
  EXPECT_NEAR(small.p_value, 0.02402296535, 1e-9);

  const TwoSampleT2 large = krishnamoorthy_yu(sample_of(testing::iris_sepals().topRows(50)),
                                              sample_of(testing::iris_sepals().bottomRows(20)));
  EXPECT_NEAR(large.t2, 243.327529, 1e-5);
  EXPECT_NEAR(large.nu, 28.35411294, 1e-7);
  EXPECT_NEAR(large.f, 117.3728962, 1e-6);
}

// SOURCE  R 4.2.2: PlantGrowth and InsectSprays, deviations from the medians, anova(lm()).
TEST(BrownForsytheTest, AgreesWithROnTwoDataSets) {
  const std::array<std::vector<double>, 3> plants = {
      std::vector<double>{4.17, 5.58, 5.18, 6.11, 4.50, 4.61, 5.17, 4.53, 5.33, 5.14},
      {4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69},
      {6.31, 5.12, 5.54, 5.50, 5.37, 5.29, 4.92, 6.15, 5.80, 5.26}};
  EXPECT_NEAR(brown_forsythe(plants).f, 1.11919, 5e-6);
  const std::array<std::vector<double>, 6> sprays = {
      std::vector<double>{10, 7, 20, 14, 14, 12, 10, 23, 17, 20, 14, 13},
      {11, 17, 21, 11, 16, 14, 17, 17, 19, 21, 7, 13},
      {0, 1, 7, 2, 3, 1, 2, 1, 3, 0, 1, 4},
      {3, 5, 12, 6, 4, 3, 5, 5, 5, 5, 2, 4},
      {3, 5, 3, 5, 3, 6, 1, 1, 3, 2, 6, 4},
      {11, 9, 15, 22, 15, 16, 13, 10, 26, 26, 24, 13}};
  EXPECT_NEAR(brown_forsythe(sprays).f, 3.82136, 5e-6);
}

// SOURCE  R package spc, mewma.crit: lambda 0.1, average run length 200.
TEST(Mewma, RunLengthWithKnownParametersIsThatOfR) {
  EXPECT_NEAR(mewma_average_run_length(2, 0.1, 8.633580644), 200.0, 1.0);
  EXPECT_NEAR(mewma_average_run_length(3, 0.1, 10.7836467), 200.0, 1.0);
}

// SOURCE  scipy 1.10.1, stats.anderson(values).statistic.
TEST(AndersonDarlingTest, AgreesWithScipy) {
  const std::vector<double> values = {6.1, -3.2, .4, 2.2, 7.7, .9, -1.5, 3.3, 12.9, 1.1};
  EXPECT_NEAR(anderson_darling(values).a2, 0.3225560887155936, 1e-12);
}

// SOURCE  R 4.2.2: power.t.test(sd = 1, power = .8), type one.sample (n = 6, 12) and two.sample
// (n = 8). R leaves the far tail out of the power.
TEST(Power, AgreesWithR) {
  EXPECT_NEAR(detectable_mean(6, .05, .8), 1.4345593728, 1e-4);
  EXPECT_NEAR(detectable_mean(12, .05, .8), 0.888661582542, 1e-4);
  EXPECT_NEAR(detectable_difference(8, .05, .8), 1.50664738887, 1e-4);
  // SOURCE  normal approximation by hand: a factor of 2 takes about 18 per arm.
  EXPECT_GT(detectable_spread_ratio(17, .05, .8), 2.0);
  EXPECT_LT(detectable_spread_ratio(18, .05, .8), 2.0);
}

}  // namespace
}  // namespace versolay::stats
