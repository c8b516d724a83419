#include "profile/edge_yield.h"

#include <algorithm>
#include <cmath>

#include "profile/advice_tables.h"
#include "profile/recommendation.h"

namespace versolay {
namespace {

constexpr int kPopulations = 1000;
constexpr int kSheets = 500;

stats::Yield yield_of(const PrinterProfile& profile, const AdviceRequest& request,
                      const Registration& correction, std::span<const EdgeReach> reach) {
  stats::FutureCards future = future_cards(profile, request, correction);
  future.cards.reach_mm.assign(reach.begin(), reach.end());
  if (profile.heavy_tails) future.set_heavy_tails();
  stats::MonteCarlo mc;
  mc.populations = kPopulations;
  mc.sheets = kSheets;
  mc.seed = request.seed;
  return stats::yield_of(future, {1.0, 1.0}, mc);
}

double sure_share(std::vector<double> shares, double confidence) {
  std::sort(shares.begin(), shares.end());
  const auto above = static_cast<double>(shares.size()) * (1 - confidence);
  return shares[static_cast<std::size_t>(std::max(0.0, std::ceil(above) - 1))];
}

EdgeYield edge_yield_of(const stats::Yield& yield, const AdviceRequest& request) {
  return {expected_good(yield, static_cast<int>(request.grid.cells.size())),
          sure_share(yield.cards, request.confidence)};
}

}  // namespace

EdgeYield edge_yield(const PrinterProfile& profile, const AdviceRequest& request,
                     const Registration& correction, std::span<const EdgeReach> reach) {
  return edge_yield_of(yield_of(profile, request, correction, reach), request);
}

EdgeYield edge_yield(const PrinterProfile& profile, Advice& advice,
                     std::span<const EdgeReach> reach, bool count_sheets) {
  const BackShift& s = advice.shift;
  const Registration shift{s.dx_mm,       s.dy_mm,       s.rotation_mrad,
                           s.scale_x_ppm, s.scale_y_ppm, s.shear_mrad};
  const stats::Yield yield =
      yield_of(profile, advice.request, registration_from(shift.page_from_wanted()), reach);
  if (count_sheets && advice.request.cards) plan_job(advice, yield);
  return edge_yield_of(yield, advice.request);
}

}  // namespace versolay
