// One order statistic of many values, fast when it is near the top.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace versolay::stats {

/// Rank (1 = smallest) of the order statistic that bounds a share of `count` values from above:
/// ceil(share * count), at least 1 and at most count.
std::size_t rank_of_share(double share, std::size_t count);

/// The value of that rank. Exact; a small pilot sample shows where the top begins, so that only the
/// top has to be sorted. `scratch` is reused between calls.
float order_statistic(std::span<const float> values, std::size_t rank, std::vector<float>& scratch);

}  // namespace versolay::stats
