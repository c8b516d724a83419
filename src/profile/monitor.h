// New readings against a profile: has anything changed?
#pragma once

#include <array>
#include <vector>

#include "profile/estimate.h"
#include "stats/two_sample.h"

namespace versolay {

enum class CheckVerdict {
  pool,        // the new readings fit: add them
  recentre,    // the constant part moved: new mean, pooled spread
  start_again  // the spread is another one: the old readings no longer describe the printer
};

struct FeedCheck {
  int sheet = 0;
  double t2 = 0.0;     // distance from the profile, allowing for its error
  double mewma = 0.0;  // of all readings up to this one
  bool out = false;    // beyond the limit for single readings
};

struct Check {
  int n_new = 0;
  std::vector<FeedCheck> feeds;
  bool charted = false;      // enough feeds behind the profile for T2 and MEWMA
  double t2_limit = 0.0;     // exceeded by one of all n_new readings with 0.5 % probability
  double mewma_limit = 0.0;  // by the largest of them with 0.5 %
  bool drift = false;
  std::array<stats::Interval, 3> moved;  // mean of the new readings minus that of the profile
  bool mean_moved = false;
  std::array<stats::Interval, 3> spread;  // sd of the new readings over that of the profile
  bool spread_known = false;              // `spread` has intervals: 4 new readings or more
  bool spread_changed = false;            // from 2 new readings on
  double spread_p_value = 1.0;
  CheckVerdict verdict = CheckVerdict::pool;
};

/// Compares dx, dy and rotation of new feeds with a profile, at 5 % false alarms for all questions
/// together. The mean: T2 of the mean (2 %); the spread: the trace of the new scatter in the metric
/// of the old (1.5 % for larger, 0.5 % for smaller, from 2 new feeds on); single readings: phase II
/// T2 (0.5 %); slow drift: MEWMA (lambda 0.2) with limits that include the error of the profile
/// (0.5 %). What it finds how often: tests/bench/README.md.
/// @param corrected  sheets that do not say so themselves were printed with the correction of this
///                   profile: one that is right reads zero.
/// Without its single feeds (not every profile keeps them) the spread is not compared.
/// Refuses: no readings; a profile without a spread.
/// Preconditions: same paper and turn.
Result<Check> check_readings(const PrinterProfile& profile, const Readings& readings,
                             bool corrected);

/// The readings as they would have been without a correction. Production sheets say which one they
/// had; `by_profile`: the others had that of this profile.
Readings uncorrected(const PrinterProfile& profile, Readings readings, bool by_profile);

/// The profile with the new session in it, or made from the new session alone (start_again). Its
/// history and studies are kept and one event is added. Refuses a profile without its feeds.
Result<PrinterProfile> updated_profile(const PrinterProfile& profile, const ReadingSession& session,
                                       const Check& check);

/// The profile for a job of the day: the shift of these fresh sheets alone, the spread of all. Two
/// or three sheets will do, because the spread is known already.
/// @fails  as estimate_profile, and no_feeds_kept for a profile that does not keep its sheets.
Result<PrinterProfile> recentred_profile(const PrinterProfile& profile,
                                         const ReadingSession& session);

/// How the backs of production sheets landed, corrected as they were.
struct LeftAfterCorrection {
  int sheets = 0;
  Registration mean;
};

/// nullopt: none of the sheets is of a job.
std::optional<LeftAfterCorrection> left_after_correction(const Readings& readings);

const char* to_string(CheckVerdict verdict);  // "pool", "recentre", "start_again"

}  // namespace versolay
