// Backs that are fitted to the front of their sheet: half of what goes wrong on a sheet is on the
// paper already when its back is printed.
//
// e = b - M f M: a front that was read to lie f off its usual place moves the error of its sheet by
// M f M, whatever the back will do. With f read from the edges of the paper, the back page of that
// sheet is moved by as much; what remains is the back's own scatter and the error of reading f.
// Both are in e + M f M of the sheets of the profile, whose fronts were read in the same way, so
// these are used like readings: mean, spread and promise are those of any profile. What an edge is
// always read wrong by drops out, because usual and present front are read alike.
#pragma once

#include "versolay/profile.h"
#include "versolay/readings.h"
#include "versolay/result.h"

namespace versolay {

struct FittedBacks {
  PrinterProfile profile;    // of what remains
  Registration usual_front;  // mean lay of the fronts on their paper, recto view; rigid
  int sheets = 0;            // behind it

  /// What is to be expected of a sheet whose front lies like this, in place of
  /// PrinterProfile::mean.
  Registration expected(const PrintLay& front) const;
};

/// @fails  fronts_not_read: fewer than 4 sheets of the profile had all four edges read on the
/// front.
Result<FittedBacks> fitted_backs(const PrinterProfile& profile);

}  // namespace versolay
