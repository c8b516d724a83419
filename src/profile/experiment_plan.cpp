#include "profile/experiment_plan.h"

#include <algorithm>
#include <cmath>

#include "core/field_range.h"
#include "core/linear_algebra.h"
#include "core/numbers.h"
#include "profile/foretold.h"
#include "profile/test_settings.h"
#include "stats/edge_kernel.h"
#include "stats/order_statistic.h"
#include "stats/power.h"
#include "stats/random.h"

namespace versolay {
namespace {

constexpr int kFewest = 4;
constexpr int kMost = 30;
/// Beyond these a further sheet saves little of an oversize (tests/bench/README.md, "Achieved
/// confidence": widths at 10 and 15 feeds).
constexpr int kUsualNumber = 10;
constexpr int kUsualNumberOfHighCoverage = 15;
constexpr double kHighCoverage = 0.99;
constexpr int kFewestAdvised = 5;
constexpr int kFurther = 5;  // sheets that together should save a pixel

RegistrationMatrix spread_of(const SampleSizeRequest& r) {
  if (r.spread) return *r.spread;
  RegistrationMatrix spread = RegistrationMatrix::Zero();
  spread(0, 0) = spread(1, 1) = r.sd_mm * r.sd_mm;
  return spread;
}

/// A printer that only shifts moves all cards equally: one will do.
stats::CardCells cards_of(const SampleSizeRequest& r) {
  stats::CardCells cards;
  cards.width_mm = r.grid.card.width_mm;
  cards.height_mm = r.grid.card.height_mm;
  if (r.grid.cells.empty() || !r.spread) {
    cards.centres = {{0.0, 0.0}};
    return cards;
  }
  const auto mirror = verso_from_recto(turn_axis(r.turn, r.paper));
  for (const Cell& cell : r.grid.cells) cards.centres.push_back(mirror(cell.centre));
  return cards;
}

/// The oversize with the printer known exactly.
double known_exactly(const SampleSizeRequest& r) {
  constexpr int kManySheets = 100000;
  stats::EdgeKernel kernel(cards_of(r), {1.0, 1.0}, stats::EdgeKernel::Value::per_card, kManySheets,
                           1);
  stats::Random random(1);
  const auto values = kernel.run({Eigen::VectorXd::Zero(6), symmetric_root(spread_of(r))}, random);
  std::vector<float> scratch;
  return stats::order_statistic(values, stats::rank_of_share(r.coverage, values.size()), scratch);
}

/// Hands: a minute for each feed, one and a half for each scan, half a minute for the holes of a
/// sheet (from memory).
int minutes_of(int feeds, int scans, int sheets) {
  return static_cast<int>(std::lround(feeds * 1.0 + scans * 1.5 + sheets * 0.5));
}

std::vector<PlanChoice> choices_of(const SampleSizeRequest& r, int advised) {
  std::vector<PlanChoice> choices;
  for (const FeedPlan& plan :
       {FeedPlan{3, 5}, FeedPlan{5, 4}, FeedPlan{advised, 1}, FeedPlan{20, 1}}) {
    PlanChoice choice;
    choice.sheets = plan.sheets;
    choice.passes = plan.passes;
    choice.oversize_mm = foretold_oversize(plan, cards_of(r), spread_of(r), kPlannedSheetShare,
                                           {r.coverage, r.confidence});
    choice.oversize_px =
        static_cast<int>(std::ceil(artwork_px_from_mm(choice.oversize_mm, r.ppi) - 1e-9));
    choice.feeds = 2 * plan.sheets * plan.passes;
    choice.scans = 2 * plan.sheets;
    choice.minutes = minutes_of(choice.feeds, choice.scans, choice.sheets);
    choices.push_back(choice);
  }
  return choices;
}

}  // namespace

SampleSizePlan plan_sample_size(const SampleSizeRequest& r) {
  require_in("coverage", r.coverage, 0.5, 0.999);
  require_in("confidence", r.confidence, 0.5, 0.999);
  require_in("ppi", r.ppi, 30, 4800);
  require_in("sd_mm", r.sd_mm, 0.001, 10);
  std::vector<int> sheets;
  for (int n = kFewest; n <= kMost + 1; ++n) sheets.push_back(n);
  const std::vector<double> oversizes =
      foretold_oversizes(sheets, cards_of(r), spread_of(r), {r.coverage, r.confidence});
  const auto oversize = [&](int n) {
    return oversizes[static_cast<std::size_t>(std::min(n, kMost + 1) - kFewest)];
  };
  SampleSizePlan plan;
  plan.limit_mm = known_exactly(r);
  plan.advised = r.coverage >= kHighCoverage ? kUsualNumberOfHighCoverage : kUsualNumber;
  const double pixel = kMmPerInch / r.ppi;
  for (int n = kFewest; n <= kMost; ++n) {
    const double now = oversize(n);
    PlanRow row;
    row.sheets = n;
    row.oversize_mm = now;
    row.oversize_px = static_cast<int>(std::ceil(artwork_px_from_mm(now, r.ppi) - 1e-9));
    row.saved_by_next_mm = std::max(0.0, now - oversize(n + 1));
    row.smallest_offset_mm = r.sd_mm * foretold_offset(n);
    plan.rows.push_back(row);
    // Where these would not save a pixel, fewer than the usual number will do.
    if (n >= kFewestAdvised && n < plan.advised && now - oversize(n + kFurther) < pixel) {
      plan.advised = n;
    }
  }
  plan.choices = choices_of(r, plan.advised);
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
  // Three components share the level, as in compare_set_ups.
  return {stats::detectable_mean(blocks, kLevel / kComponents, kPower),
          blocks >= kFewestForSpread ? foretold_spread_ratio(blocks) : 0.0};
}

double spread_at_cards_mm(const PrinterProfile& profile, const CardSize& card) {
  const double x = profile.paper.width_mm / 2 - card.width_mm / 2;
  const double y = profile.paper.height_mm / 2 - card.height_mm / 2;
  double largest = 0.0;
  for (const Point<VersoMm>& p : {Point<VersoMm>{x, y}, Point<VersoMm>{x, -y}}) {
    const auto j = displacement_jacobian(p);
    largest =
        std::max(largest, (j * profile.spread_covariance * j.transpose()).diagonal().maxCoeff());
  }
  return std::sqrt(largest);
}

}  // namespace versolay
