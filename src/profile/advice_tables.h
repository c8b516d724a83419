// Tables beside the verdict: yields, cells, centring, and the effect of other oversizes.
#pragma once

#include <span>
#include <vector>

#include "stats/oversize_bound.h"
#include "versolay/advice.h"

namespace versolay {

Oversize oversize_of(const Eigen::Vector2d& mm, double ppi);

/// Good cards per sheet of `cells` cards.
ExpectedGood expected_good(const stats::Yield& yield, int cells);

/// Fills expected_good, curve, cells and by_hand. Precondition: advice.request and advice.shift are
/// set; `future` holds the correction that is applied.
void fill_tables(Advice& advice, const stats::FutureCards& future,
                 const Eigen::Vector2d& oversize_mm, const stats::MonteCarlo& mc);

/// How many sheets to print for the cards wanted. Precondition: request.cards, expected_good.cells.
void plan_job(Advice& advice, const stats::Yield& yield);

/// What shows of a border when the picture is scaled up by the oversize on two opposite sides: it
/// grows with the picture and loses the oversize to the cut.
double scaled_border_mm(double border_mm, double oversize_mm, double card_mm);

/// By how much a back is off, mm, at its worst edge: the median over future cards, then the bound
/// of each promise (all of one coverage).
std::vector<double> off_centre_mm(stats::FutureCards future,
                                  std::span<const stats::Promise> promises,
                                  const stats::MonteCarlo& mc);

/// Precondition: request.border_mm.
Centring centring_of(stats::FutureCards future, const AdviceRequest& request,
                     const Eigen::Vector2d& oversize_mm, const stats::MonteCarlo& mc);

}  // namespace versolay
