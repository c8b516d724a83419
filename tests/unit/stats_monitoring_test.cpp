#include <gmock/gmock.h>

#include <algorithm>

#include "stats/fiducial.h"
#include "stats/monitoring.h"
#include "stats/oversize_bound.h"
#include "stats/random.h"
#include "stats/tolerance.h"
#include "stats/two_sample.h"

namespace versolay::stats {
namespace {

Eigen::MatrixXd normal_rows(int n, int p, Random& random) {
  Eigen::MatrixXd m(n, p);
  for (double& v : m.reshaped()) v = random.normal();
  return m;
}

TEST(PhaseTwo, LimitsAlarmAsRarelyAsTheyShould) {
  int alarms = 0;
  constexpr int kRuns = 4000;
  const double limit = phase_two_limit({3, 8, 7}, 0.05);
  for (int run = 0; run < kRuns; ++run) {
    Random random(3, static_cast<std::uint64_t>(run));
    const Sample reference = sample_of(normal_rows(8, 3, random));
    alarms += t2_of(reference, normal_rows(1, 3, random).row(0).transpose()) > limit ? 1 : 0;
  }
  EXPECT_NEAR(static_cast<double>(alarms) / kRuns, 0.05, 4 * std::sqrt(.05 * .95 / kRuns));
}

TEST(MewmaLimit, AlarmsAsRarelyAsItShouldAndFindsADrift) {
  const double limit = mewma_limit({2, 10, 9}, 0.2, 8, 0.05, 1);
  int alarms = 0;
  int found = 0;
  constexpr int kRuns = 800;
  for (int run = 0; run < kRuns; ++run) {
    Random random(5, static_cast<std::uint64_t>(run));
    const Sample reference = sample_of(normal_rows(10, 2, random));
    Eigen::MatrixXd fresh = normal_rows(8, 2, random);
    const auto over = [&] {
      const std::vector<double> t2 = mewma(reference, fresh, 0.2);
      return *std::max_element(t2.begin(), t2.end()) > limit;
    };
    alarms += over() ? 1 : 0;
    fresh.col(0).array() += 3.0;
    found += over() ? 1 : 0;
  }
  EXPECT_NEAR(static_cast<double>(alarms) / kRuns, 0.05, 0.025);
  EXPECT_GT(static_cast<double>(found) / kRuns, 0.8);
}

TEST(MewmaLimit, ForFewFeedsIsFarAboveThatForKnownParameters) {
  EXPECT_GT(mewma_limit({2, 8, 7}, 0.2, 10, 0.05, 1),
            2 * mewma_limit({2, 2000, 1999}, 0.2, 10, 0.05, 1));
}

TEST(SpreadRatio, CoversTheTruthAndItsTestKeepsItsLevel) {
  int covered = 0;
  int rejected = 0;
  constexpr int kRuns = 300;
  for (int run = 0; run < kRuns; ++run) {
    Random random(7, static_cast<std::uint64_t>(run));
    std::vector<double> a;
    std::vector<double> b;
    for (int i = 0; i < 12; ++i) {
      a.push_back(random.normal());
      b.push_back(5 + random.normal());
    }
    const Interval ratio = spread_ratio(a, b, 0.95, 1);
    covered += ratio.low <= 1 && ratio.high >= 1 ? 1 : 0;
    rejected += ratio.p_value < 0.05 ? 1 : 0;
  }
  EXPECT_GT(static_cast<double>(covered) / kRuns, 0.90);
  EXPECT_LT(static_cast<double>(rejected) / kRuns, 0.10);
}

FutureCards one_dimension(int n) {
  FutureCards future;
  future.feeds.mean = Eigen::VectorXd::Zero(6);
  future.feeds.scatter = Eigen::MatrixXd::Zero(6, 6);
  future.feeds.scatter(0, 0) = n - 1;
  future.feeds.n = n;
  future.feeds.dof = n - 1;
  future.cards.width_mm = 1e-3;
  future.cards.height_mm = 1e-3;
  future.cards.centres = {{0.0, 0.0}};
  return future;
}

TEST(OversizeBound, StopsWhenItIsPreciseEnoughAndTellsHowPreciseItIs) {
  MonteCarlo mc{.sheets = 300, .seed = 9};
  mc.precision = 0.1;
  const OversizeBound rough = oversize_bound(one_dimension(8), {1, 1}, {}, mc);
  EXPECT_LT(rough.needed.size(), 20000U);
  EXPECT_LE(rough.standard_error, 0.1);
  const double exact = two_sided_factor({8, 7}, .95, .90);
  EXPECT_NEAR(rough.factor, exact, 5 * rough.standard_error + 0.02 * exact);
}

TEST(HeavyTails, TakeALargerOversize) {
  FutureCards future = one_dimension(10);
  const MonteCarlo mc{.populations = 1500, .sheets = 400, .seed = 4};
  const double normal = oversize_factor(future, {1, 1}, {.99, .90}, mc);
  future.set_heavy_tails();
  EXPECT_GT(oversize_factor(future, {1, 1}, {.99, .90}, mc), 1.25 * normal);
}

TEST(Sessions, ThatDifferMakeTheFutureWider) {
  FutureCards future = one_dimension(20);
  future.feeds.dof = 16;
  const MonteCarlo mc{.populations = 1500, .sheets = 400, .seed = 4};
  const double same = oversize_factor(future, {1, 1}, {}, mc);
  SessionMeans sessions;
  sessions.means.mean = Eigen::VectorXd::Zero(6);
  sessions.means.scatter = Eigen::MatrixXd::Zero(6, 6);
  sessions.means.scatter(0, 0) = 3 * 4.0;
  sessions.means.n = 4;
  sessions.means.dof = 3;
  sessions.feeds_per_session = 5;
  future.sessions = sessions;
  EXPECT_GT(oversize_factor(future, {1, 1}, {}, mc), 2 * same);
}

TEST(UncertainMeasurement, WithManyDegreesOfFreedomIsAKnownOneAndIsNeverWorseThanNone) {
  FutureCards future = one_dimension(10);
  const MonteCarlo mc{.populations = 2000, .sheets = 300, .seed = 4};
  const double none = oversize_factor(future, {1, 1}, {}, mc);
  future.measurement(0, 0) = 0.5;
  const double known = oversize_factor(future, {1, 1}, {}, mc);
  future.measurement_dof = 1e6;
  EXPECT_NEAR(oversize_factor(future, {1, 1}, {}, mc) / known, 1.0, 0.03);
  future.measurement_dof = 4;
  const double vague = oversize_factor(future, {1, 1}, {}, mc);
  EXPECT_LT(vague, none);
  EXPECT_GT(vague, 0.85 * known);
}

TEST(FixedField, IsCoveredWithWhatIsNotKnownOfIt) {
  FutureCards future = one_dimension(30);
  future.feeds.scatter *= 1e-6;
  future.cards.fixed_mm = {{0.0, 0.5}};
  const MonteCarlo mc{.populations = 1500, .sheets = 100, .seed = 4};
  EXPECT_NEAR(oversize_factor(future, {1, 1}, {}, mc), 0.5, 0.02);
  future.cards.fixed_root_mm = Eigen::MatrixXd::Constant(1, 1, 0.1);
  // SOURCE  the 90 % quantile of a standard normal, 1.2816 (x hardly matters beside 0.5).
  EXPECT_NEAR(oversize_factor(future, {1, 1}, {}, mc), 0.5 + 0.1 * 1.2816, 0.02);
}

}  // namespace
}  // namespace versolay::stats
