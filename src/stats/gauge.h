// Is a gauge precise enough for what it measures? From items that were measured several times.
#pragma once

#include <optional>
#include <vector>

namespace versolay::stats {

/// What several standard deviations have in common, s = sqrt(sum f_i s_i^2 / sum f_i).
struct PooledSd {
  double sd = 0.0;
  int dof = 0;
};
PooledSd pooled_sd(const std::vector<PooledSd>& parts);

/// Spread of the items themselves, the gauge's repeatability taken out.
struct ProcessSpread {
  double sd = 0.0;       // 0 where the items cannot be distinguished
  double sd_high = 0.0;  // upper 95 % limit of the spread as it was seen, nothing taken out
  double share = 1.0;    // of the repeatability in the variance of a single measurement, 0..1
  int distinct_categories = 0;  // ndc: how many sizes the gauge can keep apart
  bool distinguishable = false;
};

struct GaugeStudy {
  PooledSd repeatability;  // s_r, of a single measurement
  double sd_low = 0.0;     // 95 % interval of s_r
  double sd_high = 0.0;
  bool enough_repeats = false;           // dof >= kEnoughRepeats
  std::optional<ProcessSpread> process;  // nullopt: one item only
};
/// Degrees of freedom from which a standard deviation is known to about a third.
inline constexpr int kEnoughRepeats = 6;

/// @param items  the measurements of each item; items measured once count for the spread only.
/// @return nullopt when no item was measured twice.
/// Source  s_r: ISO 5725-2, 7.4 (from memory). Spread of the items: one-way random effects (see
///         variance_components). ndc = floor(1.41 spread / s_r): AIAG, Measurement Systems
///         Analysis, 4th ed., 2010 (from memory); 1.41 is sqrt(2) as that manual rounds it.
std::optional<GaugeStudy> gauge_study(const std::vector<std::vector<double>>& items);

/// floor(1.41 process / gauge). Preconditions: gauge > 0, process >= 0.
int distinct_categories(double process_sd, double gauge_sd);

}  // namespace versolay::stats
