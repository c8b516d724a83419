// Predicts the result for a number of sheets by simulation: the later procedures, run on simulated
// sheets of the assumed printer.
#pragma once

#include <vector>

#include "stats/oversize_bound.h"

namespace versolay {

/// The oversize that advise gives on average for a profile of n sheets, each n of the list: the
/// multiple of equal growth, mm. Interpolated between a dozen numbers that are played.
/// @param cards  where the cards are; @param spread  of the feeds, dx, dy in mm, rotation in mrad.
std::vector<double> foretold_oversizes(const std::vector<int>& sheets,
                                       const stats::CardCells& cards,
                                       const RegistrationMatrix& spread,
                                       const stats::Promise& promise);

/// Sheets that are fed `passes` times a side.
struct FeedPlan {
  int sheets = 10;
  int passes = 1;
};

/// The same for sheets that are fed several times, by the procedure for them
/// (profile/pass_components.h). Front and back pass are assumed to scatter equally, and sheets to
/// differ by `sheet_share` of the variance.
double foretold_oversize(const FeedPlan& plan, const stats::CardCells& cards,
                         const RegistrationMatrix& spread, double sheet_share,
                         const stats::Promise& promise);

/// The constant offset (in sd of the feeds) that the test of the constant part finds with n sheets
/// four times out of five, one component being off.
double foretold_offset(int sheets);

/// The ratio of two spreads that compare finds with so many sheets of each, four times out of five,
/// in one component of three. Precondition: 4 sheets or more.
double foretold_spread_ratio(int sheets);

}  // namespace versolay
