// Is a run of feeds what the promise assumes: independent values of one normal population?
#pragma once

#include <Eigen/Core>
#include <cstdint>

namespace versolay::stats {

/// The largest statistic over the components, and the probability of a larger one when the feeds
/// are independent and normal (simulated, so that components may depend on each other in any way
/// and small samples are exact).
struct RunTest {
  double statistic = 0.0;
  double p_value = 1.0;
  int component = 0;  // where it is largest
};

/// A trend with the number of the feed: |t| of the slope.
RunTest trend_test(const Eigen::MatrixXd& feeds, std::uint64_t seed);

/// Two places: how much of the variance about the mean disappears when the feeds are split in two
/// (the best cut of each component), relative to the rest.
/// Source  Engelman & Hartigan, JASA 64, 1969 (test for clusters).
RunTest two_places_test(const Eigen::MatrixXd& feeds, std::uint64_t seed);

/// Lopsided scatter: |third moment| over the sd cubed.
RunTest skewness_test(const Eigen::MatrixXd& feeds, std::uint64_t seed);

/// Preconditions of all: rows are feeds in their order, 4 or more; columns vary.
/// At what share of a level the simulated p-values stop being coarse: 1 / kRunDraws.
inline constexpr int kRunDraws = 1999;

}  // namespace versolay::stats
