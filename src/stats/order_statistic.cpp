#include "stats/order_statistic.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/expect.h"

namespace versolay::stats {
namespace {

constexpr std::size_t kPilot = 256;

/// A value that most probably lies below the wanted order statistic, but not by much.
float pilot_floor(std::span<const float> values, double share) {
  std::array<float, kPilot> pilot;
  const std::size_t stride = values.size() / kPilot;
  for (std::size_t i = 0; i < kPilot; ++i) pilot[i] = values[i * stride];
  const double lower = share - 3 * std::sqrt(share * (1 - share) / kPilot) - 2.0 / kPilot;
  const auto at = static_cast<std::ptrdiff_t>(std::max(0.0, lower * kPilot));
  std::nth_element(pilot.begin(), pilot.begin() + at, pilot.end());
  return pilot[static_cast<std::size_t>(at)];
}

}  // namespace

std::size_t rank_of_share(double share, std::size_t count) {
  // 0.95 * 2000 is 1900 and must not become 1901 by a rounding error.
  const double exact = share * static_cast<double>(count);
  const auto rank = static_cast<std::size_t>(std::ceil(exact * (1 - 1e-12)));
  return std::clamp<std::size_t>(rank, 1, count);
}

float order_statistic(std::span<const float> values, std::size_t rank,
                      std::vector<float>& scratch) {
  expect(rank >= 1 && rank <= values.size());
  scratch.resize(values.size());
  const std::size_t from_top = values.size() - rank;  // 0: the largest
  if (values.size() >= 4 * kPilot) {
    const float floor =
        pilot_floor(values, static_cast<double>(rank) / static_cast<double>(values.size()));
    std::size_t kept = 0;
    for (const float value : values) {
      scratch[kept] = value;
      kept += value > floor ? 1 : 0;
    }
    if (kept > from_top) {
      const auto at = scratch.begin() + static_cast<std::ptrdiff_t>(from_top);
      std::nth_element(scratch.begin(), at, scratch.begin() + static_cast<std::ptrdiff_t>(kept),
                       std::greater<>());
      return *at;
    }
  }
  std::copy(values.begin(), values.end(), scratch.begin());
  const auto at = scratch.begin() + static_cast<std::ptrdiff_t>(rank - 1);
  std::nth_element(scratch.begin(), at, scratch.end());
  return *at;
}

}  // namespace versolay::stats
