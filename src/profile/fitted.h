// Backs fitted to the front of their sheet: half of the error of a sheet is already on the paper
// when its back is printed.
//
// e = b - M f M: a front that is off its usual place by f shifts the error of its sheet by M f M,
// whatever the back will do. With f read from the edges of the paper, the back page of that sheet
// is moved by the same amount; what remains is the back's own scatter and the error of reading f.
// Both are in e + M f M of the sheets of the profile, whose fronts were read in the same way, so
// these are used like readings: mean, spread and promise follow as for any profile. The systematic
// error of reading an edge cancels, because usual and present front are read in the same way.
#pragma once

#include "versolay/printer_profile.h"
#include "versolay/result.h"
#include "versolay/sheet_readings.h"

namespace versolay {

struct FittedBacks {
  PrinterProfile profile;    // of what remains
  Registration usual_front;  // mean lay of the fronts on their paper, recto view; rigid
  int sheets = 0;            // behind it

  /// The expected registration of a sheet with this position of its front, instead of
  /// PrinterProfile::mean.
  Registration expected(const PrintLay& front) const;
};

/// @fails  fronts_not_read: fewer than 4 sheets of the profile had all four edges read on the
/// front.
Result<FittedBacks> fitted_backs(const PrinterProfile& profile);

}  // namespace versolay
