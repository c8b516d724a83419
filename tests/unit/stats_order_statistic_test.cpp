#include <gmock/gmock.h>

#include <algorithm>

#include "stats/order_statistic.h"
#include "stats/random.h"

namespace versolay::stats {
namespace {

TEST(OrderStatistic, IsTheOneThatSortingGives) {
  std::vector<float> scratch;
  for (std::size_t count : {1U, 7U, 1000U, 1024U, 18000U}) {
    std::vector<float> values(count);
    Random(count).fill_normal(values);
    std::vector<float> sorted = values;
    std::sort(sorted.begin(), sorted.end());
    for (double share : {0.01, 0.5, 0.9, 0.95, 0.99, 1.0}) {
      const std::size_t rank = rank_of_share(share, count);
      EXPECT_EQ(order_statistic(values, rank, scratch), sorted[rank - 1]) << count << " " << share;
    }
  }
}

TEST(OrderStatistic, IsExactWhereThePilotSampleMisleads) {
  // Sorted input with all large values where the pilot does not look, and many equal values.
  std::vector<float> scratch;
  std::vector<float> values(2048, 1.0F);
  for (std::size_t i = 0; i < values.size(); i += 8) values[i] = 5.0F;
  std::vector<float> sorted = values;
  std::sort(sorted.begin(), sorted.end());
  for (std::size_t rank : {1U, 1000U, 1792U, 1793U, 2048U}) {
    EXPECT_EQ(order_statistic(values, rank, scratch), sorted[rank - 1]) << rank;
  }
}

TEST(RankOfShare, RoundsUpButNotBecauseOfTheLastBit) {
  EXPECT_EQ(rank_of_share(0.95, 2000), 1900U);
  EXPECT_EQ(rank_of_share(0.99, 18000), 17820U);
  EXPECT_EQ(rank_of_share(0.9, 20001), 18001U);
  EXPECT_EQ(rank_of_share(0.001, 10), 1U);
  EXPECT_EQ(rank_of_share(1.0, 10), 10U);
}

}  // namespace
}  // namespace versolay::stats
