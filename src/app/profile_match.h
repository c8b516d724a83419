// Does a printer profile belong to the pages that it is to correct?
#pragma once

#include <optional>
#include <string>

#include "versolay/profile.h"

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

/// A warning when the targets behind the profile came out more than 0.5 % larger or smaller than
/// they are: pages printed at actual size are not what was measured.
std::optional<Notice> other_print_size(const PrinterProfile& profile);

/// A warning when the sheets that were read came out at a size that differs by more than 0.5 % from
/// that of the profile: a setting of the print dialogue is another one.
std::optional<Notice> other_print_size(const PrinterProfile& profile, const Readings& readings);

/// A remark when the profile does not show that the printer is off at all. What lays out and
/// corrects pages applies R^-1 of the mean whatever the test says: of what is known, the mean is
/// the best guess, and its error is less than that of no guess unless the true mean is under one
/// standard error. The advice leaves the backs alone then, and its oversize covers both.
std::optional<Notice> unproven_shift(const PrinterProfile& profile);

}  // namespace versolay
