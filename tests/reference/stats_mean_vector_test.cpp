#include <gmock/gmock.h>

#include <array>

#include "stats/anova.h"
#include "stats/hotelling.h"
#include "stats/sample.h"
#include "support/iris.h"

namespace versolay::stats {
namespace {

template <std::size_t Rows, std::size_t Columns>
Eigen::MatrixXd rows_of(const double (&values)[Rows][Columns]) {
  Eigen::MatrixXd m(Rows, Columns);
  for (std::size_t r = 0; r < Rows; ++r) {
    for (std::size_t c = 0; c < Columns; ++c) m(r, c) = values[r][c];
  }
  return m;
}

MeanVector about(const Sample& sample, const Eigen::VectorXd& mu0) {
  return {sample.mean - mu0, sample.covariance(), sample.n, sample.dof};
}

// SOURCE  NIST/SEMATECH e-Handbook, 6.5.4.1: three variables, five observations (data from memory,
// results recomputed).
TEST(Sample, ReproducesTheHandbookCovarianceExample) {
  const Sample s = sample_of(rows_of(
      {{4.0, 2.0, .60}, {4.2, 2.1, .59}, {3.9, 2.0, .58}, {4.3, 2.1, .62}, {4.1, 2.2, .63}}));
  EXPECT_TRUE(s.mean.isApprox(Eigen::Vector3d(4.10, 2.08, .604), 1e-12));
  Eigen::Matrix3d expected;
  expected << .025, .0075, .00175, .0075, .0070, .00135, .00175, .00135, .00043;
  EXPECT_TRUE(s.covariance().isApprox(expected, 1e-10));
}

// SOURCE  Sweat data of Johnson & Wichern, Applied Multivariate Statistical Analysis, example 5.2
// (data from memory), mu0 = (4, 50, 10); digits from R 4.2.2.
TEST(Hotelling, ReproducesTheSweatExample) {
  const Sample s = sample_of(
      rows_of({{3.7, 48.5, 9.3}, {5.7, 65.1, 8.0},  {3.8, 47.2, 10.9}, {3.2, 53.2, 12.0},
               {3.1, 55.5, 9.7}, {4.6, 36.1, 7.9},  {2.4, 24.8, 14.0}, {7.2, 33.1, 7.6},
               {6.7, 47.4, 8.5}, {5.4, 54.1, 11.3}, {3.9, 36.9, 12.7}, {4.5, 58.8, 12.3},
               {3.5, 27.8, 9.8}, {4.5, 40.2, 8.4},  {1.5, 13.5, 10.1}, {8.5, 56.4, 7.1},
               {4.5, 71.6, 8.2}, {6.5, 52.8, 10.9}, {4.1, 44.1, 11.2}, {5.5, 40.9, 9.4}}));
  const HotellingTest test = hotelling_one_sample(about(s, Eigen::Vector3d(4, 50, 10)));
  EXPECT_NEAR(test.t2, 9.738772855, 1e-8);
  EXPECT_NEAR(test.p_value, .06492833538, 1e-9);
  EXPECT_EQ(test.df1, 3);
  EXPECT_EQ(test.df2, 17);
}

// SOURCE  R 4.2.2: setosa against (5, 3.5).
TEST(Hotelling, AgreesWithROnTheIrises) {
  const Sample s = sample_of(testing::iris_sepals().topRows(50));
  const HotellingTest test = hotelling_one_sample(about(s, Eigen::Vector2d(5, 3.5)));
  EXPECT_NEAR(test.t2, 4.588356167, 1e-8);
  EXPECT_NEAR(test.f, 2.247358123, 1e-8);
  EXPECT_NEAR(test.p_value, .1166851197, 1e-9);
}

TEST(Hotelling, CriticalValueIsTheOneThatGivesItsOwnLevel) {
  const double t2 = hotelling_critical(3, 7, 0.05);
  // SOURCE  R: qf(.95, 3, 5) = 5.409451318.
  EXPECT_NEAR(t2, 7.0 * 3 / 5 * 5.409451318, 1e-7);
}

TEST(Hotelling, OfAComponentThatNeverVariesIsThatOfTheOthers) {
  Sample s = sample_of(rows_of(
      {{1.0, 0.5, 0.0}, {2.0, 0.1, 0.0}, {1.5, 0.9, 0.0}, {0.7, 0.3, 0.0}, {1.2, 0.6, 0.0}}));
  const HotellingTest all = hotelling_one_sample(about(s, Eigen::Vector3d::Zero()));
  const HotellingTest two =
      hotelling_one_sample({s.mean.head(2), s.covariance().topLeftCorner(2, 2), s.n, s.dof});
  EXPECT_EQ(all.df1, 2);
  EXPECT_NEAR(all.t2, two.t2, 1e-9);
  s.mean[2] = 0.1;  // always off by the same amount, never by another
  EXPECT_EQ(hotelling_one_sample(about(s, Eigen::Vector3d::Zero())).p_value, 0.0);
}

TEST(Hotelling, IsImpossibleWithNoMoreFeedsThanComponents) {
  const Eigen::Matrix3d unit = Eigen::Matrix3d::Identity();
  EXPECT_FALSE(hotelling_is_possible({Eigen::Vector3d::Ones(), unit, 3, 2}));
  EXPECT_TRUE(hotelling_is_possible({Eigen::Vector3d::Ones(), unit, 4, 3}));
}

TEST(BonferroniT, IsStudentsTOfTheWorstComponentTimesTheirNumber) {
  // SOURCE  R: qt(.95, 7) = 1.894578605, so a t of that size has a two-sided p of 0.1.
  Eigen::Vector3d mean(0.1, 1.894578605, -0.2);
  const BonferroniT worst = bonferroni_t({mean, Eigen::Matrix3d::Identity() * 8, 8, 7});
  EXPECT_EQ(worst.component, 1);
  EXPECT_NEAR(worst.t, 1.894578605, 1e-12);
  EXPECT_NEAR(worst.p_value, 0.3, 1e-9);
}

// SOURCE  R 4.2.2, data set PlantGrowth: anova(lm(weight ~ group)).
TEST(OneWayAnova, AgreesWithROnPlantGrowth) {
  const std::array groups = {
      sample_of(rows_of(
          {{4.17}, {5.58}, {5.18}, {6.11}, {4.50}, {4.61}, {5.17}, {4.53}, {5.33}, {5.14}})),
      sample_of(rows_of(
          {{4.81}, {4.17}, {4.41}, {3.59}, {5.87}, {3.83}, {6.03}, {4.89}, {4.32}, {4.69}})),
      sample_of(rows_of(
          {{6.31}, {5.12}, {5.54}, {5.50}, {5.37}, {5.29}, {4.92}, {6.15}, {5.80}, {5.26}}))};
  const FTest test = one_way_anova(groups, 0);
  EXPECT_NEAR(test.f, 4.84608786238, 1e-10);
  EXPECT_NEAR(test.p_value, 0.0159099583256, 1e-12);
  EXPECT_EQ(test.df1, 2);
  EXPECT_EQ(test.df2, 27);
}

TEST(Pooling, AddsTheScatterWithinSessionsAndAveragesOverAllFeeds) {
  const std::array sessions = {sample_of(rows_of({{1.0}, {3.0}})),
                               sample_of(rows_of({{10.0}, {11.0}, {12.0}}))};
  const Sample all = pooled(sessions);
  EXPECT_EQ(all.n, 5);
  EXPECT_EQ(all.dof, 3);
  EXPECT_DOUBLE_EQ(all.mean[0], 37.0 / 5);
  EXPECT_DOUBLE_EQ(all.scatter(0, 0), 2.0 + 2.0);
}

TEST(RootOfDifference, ClipsWhatWouldBeNegative) {
  const Eigen::Matrix2d observed = Eigen::Vector2d(4.0, 1.0).asDiagonal();
  const Eigen::Matrix2d known = Eigen::Vector2d(1.0, 3.0).asDiagonal();
  const Eigen::MatrixXd root = root_of_difference(observed, known);
  const Eigen::Matrix2d expected = Eigen::Vector2d(3.0, 0.0).asDiagonal();
  EXPECT_TRUE((root * root.transpose()).isApprox(expected, 1e-12));
}

}  // namespace
}  // namespace versolay::stats
