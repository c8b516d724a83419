// From readings to a printer profile.
#pragma once

#include <string>
#include <vector>

#include "versolay/printer_profile.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// One readings file: sheets that were printed in one go.
struct ReadingSession {
  std::string source;  // name of the file, for messages
  Readings readings;
};

/// A sheet that the user leaves out, and why.
struct LeaveOut {
  int sheet = 0;
  std::string source;  // of this readings file; empty: of any, when only one has such a sheet
  std::string why;
};

struct EstimateOptions {
  bool recentre = false;       // the mean is that of the newest session, whatever the others say
  bool keep_misfeeds = false;  // gross outliers stay in the estimate
  std::vector<LeaveOut> leave_out;
  bool keep_doubtful = false;  // sheets whose reading is in doubt stay in the estimate
};

/// Estimates constant part, spread and their uncertainty; every feed counts once.
///
/// Model: within a session the registrations are independent with one mean and one covariance (the
/// spread); the sessions share the covariance. Components that not all sheets estimated (scales,
/// shear) are left out. Where the means of the sessions agree, the mean is that of all feeds. Where
/// they do not, four sessions or more are a sample of sessions, and the mean is that of their
/// means; with fewer it is that of the newest session. Sheets that were fed several times count as
/// an equivalent plain sample (pass_components.h). The measurement covariance is the average of the
/// readings'.
///
/// Doubtful sheets (core/doubt.h) are left out where three others at least remain, and named either
/// way: what they say may be wrong by more than they state, and one in four of them moves the
/// advice. Reversible (keep_doubtful).
///
/// Misfeeds: the generalised ESD test of dx, dy and rotation (level 0.01 / 3) names sheets that do
/// not belong to the rest; one is left out only where it is also off by more than 1 mm (rotation:
/// at the corners) and 5 robust standard deviations. Reported, reversible (keep_misfeeds), and the
/// promise is then conditional on no misfeed.
///
/// Refuses: no sheets, different turn or paper, the same sheet twice (a second scan is not a
/// second feed). One feed is accepted: the mean alone, spread_dof = 0 and a warning.
/// `created` and `software` are filled in.
Result<PrinterProfile> estimate_profile(std::vector<ReadingSession> sessions,
                                        const ProfileLabels& labels,
                                        const EstimateOptions& options = {});

/// The readings that a profile was made from, as far as it keeps them: registrations, without the
/// single holes. For estimating again with further sessions.
std::vector<ReadingSession> sessions_of(const PrinterProfile& profile);

}  // namespace versolay
