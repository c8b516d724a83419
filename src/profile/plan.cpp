#include "profile/plan.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "core/field_range.h"
#include "core/numbers.h"
#include "profile/test_settings.h"
#include "stats/power.h"
#include "stats/random.h"
#include "stats/tolerance.h"

namespace versolay {
namespace {

constexpr int kFewest = 4;
constexpr int kMost = 30;

}  // namespace

SampleSizePlan plan_sample_size(const SampleSizeRequest& r) {
  require_in("coverage", r.coverage, 0.5, 0.999);
  require_in("confidence", r.confidence, 0.5, 0.999);
  require_in("ppi", r.ppi, 30, 4800);
  require_above("sd_mm", r.sd_mm, 0, 10);
  const auto oversize = [&r](int n) {
    return r.sd_mm *
           stats::two_sided_factor({static_cast<double>(n), n - 1.0}, r.coverage, r.confidence);
  };
  SampleSizePlan plan;
  plan.limit_mm = r.sd_mm * quantile(boost::math::normal(), (1 + r.coverage) / 2);
  plan.advised = r.coverage >= 0.99 ? 15 : 10;
  const double pixel = kMmPerInch / r.ppi;
  double now = oversize(kFewest);
  for (int n = kFewest; n <= kMost; ++n) {
    const double next = oversize(n + 1);
    PlanRow row;
    row.sheets = n;
    row.oversize_mm = now;
    row.oversize_px = static_cast<int>(std::ceil(artwork_px_from_mm(now, r.ppi) - 1e-9));
    row.saved_by_next_mm = now - next;
    row.smallest_offset_mm = r.sd_mm * stats::detectable_mean(n, kLevel, kPower);
    plan.rows.push_back(row);
    // Where five more together would not save a pixel, fewer than the usual number will do.
    if (n >= 5 && n < plan.advised && now - oversize(n + 5) < pixel) plan.advised = n;
    now = next;
  }
  return plan;
}

std::vector<Run> run_order(const RunOrderRequest& request) {
  require_in("compare", static_cast<double>(request.set_ups.size()), 2, 100);
  require_in("sheets", request.blocks, 2, 100);
  stats::Random random(request.seed);
  std::vector<Run> runs;
  std::vector<std::size_t> order(request.set_ups.size());
  for (int block = 0; block < request.blocks; ++block) {
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    for (std::size_t k = order.size(); k > 1; --k) {
      std::swap(order[k - 1],
                order[static_cast<std::size_t>(random.uniform() * static_cast<double>(k))]);
    }
    for (std::size_t set_up : order) {
      runs.push_back({static_cast<int>(runs.size()) + 1, block + 1, set_up});
    }
  }
  return runs;
}

RunPower run_power(int blocks) {
  return {stats::detectable_mean(blocks, kLevel, kPower),
          stats::detectable_spread_ratio(blocks, kLevel, kPower)};
}

}  // namespace versolay
