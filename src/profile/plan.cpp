#include "profile/plan.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "core/numbers.h"
#include "core/translation.h"
#include "profile/test_settings.h"
#include "stats/power.h"
#include "stats/random.h"
#include "stats/tolerance.h"

namespace versolay {
namespace {

constexpr int kFewest = 4;
constexpr int kMost = 30;

void require(bool ok, const std::string& option, double value, const std::string& range) {
  if (!ok) throw Error(option + " " + format_number(value, 6), tr("must be {}", range));
}

}  // namespace

SheetPlan plan_sheets(const PlanRequest& r) {
  require(r.coverage >= 0.5 && r.coverage <= 0.999, "--coverage", r.coverage,
          tr("from 0.5 to 0.999"));
  require(r.confidence >= 0.5 && r.confidence <= 0.999, "--confidence", r.confidence,
          tr("from 0.5 to 0.999"));
  require(r.ppi >= 30 && r.ppi <= 4800, "--ppi", r.ppi, tr("from 30 to 4800 pixels per inch"));
  require(r.sd_mm > 0 && r.sd_mm <= 10, "--sd", r.sd_mm, tr("more than 0 and at most 10 mm"));
  const auto oversize = [&r](int n) {
    return r.sd_mm *
           stats::two_sided_factor({static_cast<double>(n), n - 1.0}, r.coverage, r.confidence);
  };
  SheetPlan plan;
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
  if (request.set_ups.size() < 2) throw Error("--compare", tr("needs two set-ups or more"));
  require(request.blocks >= 2 && request.blocks <= 100, "--sheets", request.blocks,
          tr("from 2 to 100 sheets of each set-up"));
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
