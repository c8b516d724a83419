// Does the comparison of two ways of turning believe what it should?
#include <gtest/gtest.h>

#include "profile/foretold_turn.h"
#include "stats/hotelling.h"
#include "stats/random.h"
#include "support/profile_samples.h"

namespace versolay {
namespace {

using testing::profile_of;

constexpr int kSheets = 6;

// Where the two passes lie on the paper, u across and v along the feed, lead edge up, with their
// sd.
constexpr double kFront[] = {0.40, -0.25};
constexpr double kBack[] = {-0.10, 0.35};
constexpr double kSdMm = 0.12;

struct Pass {
  double u, v;
};

Pass drawn(const double (&mean)[2], stats::Random& random) {
  return {mean[0] + kSdMm * random.normal(), mean[1] + kSdMm * random.normal()};
}

// Signs of the passes in the registration: lead edge up, the guide on one side. A long-edge turn
// mirrors the side guide; a short-edge turn swaps lead and tail edge. From the geometry of turning
// a sheet of paper, common practice.
Registration long_edge(const Pass& front, const Pass& back) {
  return {-(back.u + front.u), back.v - front.v};
}
Registration short_edge(const Pass& front, const Pass& back) {
  return {back.u - front.u, -(back.v + front.v)};
}

SetUp turned_long(std::uint64_t seed) {
  stats::Random random(seed);
  std::vector<Registration> feeds;
  Eigen::MatrixXd other(kSheets, 3);
  for (int i = 0; i < kSheets; ++i) {
    const Pass front = drawn(kFront, random);
    const Pass back = drawn(kBack, random);
    feeds.push_back(long_edge(front, back));
    feeds.back().rotation_mrad = random.normal();
    other.row(i) = short_edge(front, back).vec().head<3>();
    other(i, 2) = feeds.back().rotation_mrad;
  }
  SetUp set_up{"long", profile_of(feeds)};
  set_up.profile.turn = Turn::long_edge;
  const stats::Sample sample = stats::sample_of(other);
  OtherTurn foretold{Turn::short_edge, kSheets, sample.mean.head<3>(), {}, {}};
  for (int c = 0; c < 3; ++c) {
    foretold.half_width[c] =
        stats::t_half_width(sample.dof, 0.95) * std::sqrt(sample.covariance()(c, c) / kSheets);
  }
  set_up.profile.studies.other_turn = foretold;
  return set_up;
}

SetUp turned_short(std::uint64_t seed, double guide_moved_mm = 0.0) {
  stats::Random random(seed);
  std::vector<Registration> feeds;
  for (int i = 0; i < kSheets; ++i) {
    feeds.push_back(short_edge(drawn(kFront, random), drawn(kBack, random)));
    feeds.back().dx_mm += guide_moved_mm;
    feeds.back().rotation_mrad = random.normal();
  }
  SetUp set_up{"short", profile_of(feeds)};
  set_up.profile.turn = Turn::short_edge;
  return set_up;
}

TEST(ForetoldTurn, AgreesAsOftenAsItsLevelSaysWhenOnlyTheTurnDiffers) {
  constexpr std::uint64_t kPairs = 400;
  int agree = 0;
  for (std::uint64_t seed = 1; seed <= kPairs; ++seed) {
    agree += foretold_turn(turned_long(seed), turned_short(seed + 10'000))->agrees ? 1 : 0;
  }
  // 95 % (Bonferroni: a little more); four standard errors of 400 are 4.4 %.
  EXPECT_GE(agree, 0.906 * kPairs);
  EXPECT_LE(agree, 0.994 * kPairs);
}

TEST(ForetoldTurn, SeesThatTheGuideWasMovedAsWell) {
  const auto foretold = foretold_turn(turned_short(7, 0.8), turned_long(8)).value();
  EXPECT_EQ(foretold.by, "long");  // whichever of the two has read its edges
  EXPECT_FALSE(foretold.agrees);
  EXPECT_GT(foretold.difference[0].low, 0.3);
  EXPECT_LT(foretold.difference[0].high, 1.3);
  EXPECT_LT(foretold.difference[1].low, 0.0);
  EXPECT_GT(foretold.difference[1].high, 0.0);
}

TEST(ForetoldTurn, IsSilentForOneWayOfTurningAndWithoutEdges) {
  EXPECT_FALSE(foretold_turn(turned_long(1), turned_long(2)));
  EXPECT_FALSE(foretold_turn(turned_short(1), turned_short(2)));
  versolay::SetUp no_edges = turned_long(1);
  no_edges.profile.studies.other_turn.reset();
  EXPECT_FALSE(foretold_turn(no_edges, turned_short(2)));
}

TEST(CompareSetUps, TellsThatOneOfTheTwoWasFedTheOtherWayRound) {
  versolay::SetUp turned = turned_long(1);
  EXPECT_FALSE(compare_set_ups(turned, turned_long(2), false).value().one_fed_round);
  for (ProfileFeed& feed : turned.profile.feeds) feed.fed_round = true;
  EXPECT_TRUE(compare_set_ups(turned, turned_long(2), false).value().one_fed_round);
}

}  // namespace
}  // namespace versolay
