// Does a printer profile belong to the pages that it is to correct?
#pragma once

#include <optional>

#include "versolay/profile.h"

namespace versolay {

/// A refusal when the paper (over 0.5 mm of difference) or the turn is not the one that the profile
/// was measured with: signs and sizes of its numbers would be wrong.
std::optional<Refusal> profile_mismatch(const PrinterProfile& profile, const Paper& paper,
                                        Turn turn);

/// A remark when the profile does not show that the printer is off at all.
std::optional<Notice> unproven_shift(const PrinterProfile& profile);

}  // namespace versolay
