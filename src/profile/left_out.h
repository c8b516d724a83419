// Sheets excluded from an estimate. Nothing is left out silently.
#pragma once

#include <optional>
#include <set>
#include <vector>

#include "profile/estimate.h"

namespace versolay {

/// Leaves out the sheets that the user named. @return a refusal when a sheet does not exist
/// or is ambiguous.
std::optional<Refusal> leave_out(PrinterProfile& profile, const std::vector<LeaveOut>& list);

/// Leaves sheets out whose reading is in doubt, unless `keep` or fewer than three others would
/// remain; names them in profile.warnings either way.
void judge_doubtful(PrinterProfile& profile, bool keep);

/// Warns users of the profile about sheets whose reading is in doubt; nullopt: none.
std::optional<Notice> doubtful_sheets(const PrinterProfile& profile);

/// Leaves gross misfeeds out (unless `keep`) and remarks on the others, in profile.warnings.
/// @return the indices of the feeds left out.
std::set<std::size_t> judge_misfeeds(PrinterProfile& profile, bool keep);

/// Fills profile.excluded and counts the feeds of the sessions.
void list_left_out(PrinterProfile& profile);

}  // namespace versolay
