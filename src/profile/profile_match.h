// Does a printer profile belong to the pages that it is to correct?
#pragma once

#include <optional>
#include <string>

#include "versolay/printer_profile.h"

namespace versolay {

/// A refusal when the paper (over 0.5 mm of difference) or the turn is not the one that the profile
/// was measured with: signs and sizes of its numbers would be wrong.
std::optional<Refusal> profile_mismatch(const PrinterProfile& profile, const Paper& paper,
                                        Turn turn);

/// What the user says about the set-up of a job. Empty: not said.
struct JobSetup {
  std::string feed;
  std::string stock;
  std::string quality;
};

/// A warning for each of feed, stock and quality in which the job differs from the profile.
Notices other_setup(const PrinterProfile& profile, const JobSetup& job);

/// A warning when the sheets that were read came out at a size that differs by more than 0.5 % from
/// that of the profile: a setting of the print dialogue is another one.
std::optional<Notice> other_print_size(const PrinterProfile& profile, const Readings& readings);

/// What whoever applies a profile should know of it: that its targets came out over 0.5 % larger or
/// smaller than they are; that it does not show that the printer is off at all.
Notices remarks_on(const PrinterProfile& profile);

}  // namespace versolay
